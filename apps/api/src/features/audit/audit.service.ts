import { Injectable } from '@nestjs/common';
import { TenantTransaction, verifyAudit, type TenantContext } from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import type { AuditEntryPage, AuditVerificationResponse, ListAuditEntriesQuery } from './audit.dto.js';
import { listAuditEntries } from './audit.queries.js';

@Injectable()
export class AuditService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, query: ListAuditEntriesQuery): Promise<AuditEntryPage> {
    const limit = pageSize(query);
    const { studioId } = ctx;
    const rows = await this.transaction.read(ctx, (sql) =>
      listAuditEntries(sql, { ...query, studioId, limit: limit + 1 }),
    );
    return pageOf(rows, limit);
  }

  async verify(ctx: TenantContext): Promise<AuditVerificationResponse> {
    const verification = await this.transaction.run(ctx, (tx) => verifyAudit(tx, ctx.studioId));
    return { intact: verification.broken.length === 0, ...verification };
  }
}
