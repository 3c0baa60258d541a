import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { AuditEntryPage, AuditVerificationResponse, ListAuditEntriesQuery } from './audit.dto.js';
import { AuditService } from './audit.service.js';

@ApiTags('Audit')
@Controller('v1')
export class AuditController {
  constructor(private readonly audit: AuditService) {}

  @Get('audit-entries')
  @Describe({
    id: 'listAuditEntries',
    summary: 'Who did or read what, newest first',
    returns: AuditEntryPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListAuditEntriesQuery): Promise<AuditEntryPage> {
    return this.audit.list(ctx, query);
  }

  @Get('audit-verification')
  @Describe({
    id: 'verifyAudit',
    summary: 'Check the sealed entries against their seals, and the seals against each other',
    returns: AuditVerificationResponse,
  })
  verify(@Ctx() ctx: TenantContext): Promise<AuditVerificationResponse> {
    return this.audit.verify(ctx);
  }
}
