import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ListRecordOpeningsQuery,
  OpenRecordRequest,
  RecordOpeningPage,
  RecordOpeningResponse,
} from './record-openings.dto.js';
import { RecordOpeningsService } from './record-openings.service.js';

@ApiTags('Rights')
@Controller('v1')
export class RecordOpeningsController {
  constructor(private readonly openings: RecordOpeningsService) {}

  @Post('clients/:clientId/record-openings')
  @Describe({
    id: 'openRecord',
    summary: 'Read a restricted record for an hour, and say why',
    description:
      'Health data of somebody who had their record restricted is withheld (`access.record-restricted`). Who opens it reads ' +
      'it for an hour; the owners are told by mail and a task, and every read stands in the audit log as `opened-read.`.',
    returns: RecordOpeningResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  open(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: OpenRecordRequest,
  ): Promise<RecordOpeningResponse> {
    return this.openings.open(ctx, clientId, request);
  }

  @Get('record-openings')
  @Describe({
    id: 'listRecordOpenings',
    summary: 'Who opened restricted records, when and why',
    returns: RecordOpeningPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListRecordOpeningsQuery): Promise<RecordOpeningPage> {
    return this.openings.list(ctx, query);
  }
}
