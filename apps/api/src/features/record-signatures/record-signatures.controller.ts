import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { RecordSignatureResponse, VerificationResponse } from './record-signatures.dto.js';
import { RecordSignaturesService } from './record-signatures.service.js';

@ApiTags('Fit sessions')
@Controller('v1')
export class RecordSignaturesController {
  constructor(private readonly signatures: RecordSignaturesService) {}

  @Get('fit-sessions/:fitSessionId/signatures')
  @Describe({
    id: 'listRecordSignatures',
    summary: 'The signatures under a session and its amendments',
    returns: [RecordSignatureResponse],
    problems: [404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
  ): Promise<RecordSignatureResponse[]> {
    return this.signatures.list(ctx, fitSessionId);
  }

  @Get('record-verification')
  @Describe({
    id: 'verifyRecords',
    summary: 'Check every signed record against its signature, and the signatures against each other',
    returns: VerificationResponse,
  })
  verify(@Ctx() ctx: TenantContext): Promise<VerificationResponse> {
    return this.signatures.verify(ctx);
  }
}
