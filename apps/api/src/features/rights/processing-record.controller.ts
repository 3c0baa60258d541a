import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { ProcessingRecordResponse } from './processing-record.dto.js';
import { RetentionService } from './retention.service.js';

@ApiTags('Rights of the person')
@Controller('v1/processing-record')
export class ProcessingRecordController {
  constructor(private readonly retention: RetentionService) {}

  @Get()
  @Describe({
    id: 'getProcessingRecord',
    summary: 'What the studio does with personal data, as a supervisory authority may ask (GDPR, article 30)',
    returns: ProcessingRecordResponse,
  })
  get(@Ctx() ctx: TenantContext): Promise<ProcessingRecordResponse> {
    return this.retention.processingRecord(ctx);
  }
}
