import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import type { ClientSummaryResponse } from './client-summary.dto.js';
import { findClientSummary } from './client-summaries.queries.js';
import { clientDrawing } from './client-drawing.js';
import type { DrawingResponse } from './drawing.dto.js';
import type { ListOutcomesQuery, OutcomePage, OutcomeResponse } from './outcomes.dto.js';
import * as queries from './outcomes.queries.js';

@Injectable()
export class OutcomesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, query: ListOutcomesQuery): Promise<OutcomePage> {
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, after: query.after ?? null, limit: limit + 1 };
    return pageOf(await this.transaction.read(ctx, (sql) => queries.listOutcomes(sql, page)), limit);
  }

  /** Reading health data is itself written down. */
  async get(ctx: TenantContext, fitSessionId: string): Promise<OutcomeResponse> {
    return this.transaction.run(ctx, async (tx) => {
      const outcome = found(await queries.findOutcome(tx, { studioId: ctx.studioId, fitSessionId }));
      await recordAudit(tx, ctx, { action: 'outcomes.read', recordId: fitSessionId });
      return outcome;
    });
  }

  async clientSummary(
    ctx: TenantContext,
    fitSessionId: string,
    version: number | null,
  ): Promise<ClientSummaryResponse> {
    const key = { studioId: ctx.studioId, fitSessionId, version };
    return this.transaction.run(ctx, async (tx) => {
      const summary = found(await findClientSummary(tx, key));
      await recordAudit(tx, ctx, { action: 'client-summaries.read', recordId: fitSessionId });
      return summary;
    });
  }

  async clientDrawing(
    ctx: TenantContext,
    fitSessionId: string,
    version: number | null,
  ): Promise<DrawingResponse> {
    return clientDrawing(await this.clientSummary(ctx, fitSessionId, version));
  }
}
