import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import type {
  ListOutcomesQuery,
  OutcomePage,
  OutcomeResponse,
  OutcomeReviewResponse,
} from './outcomes.dto.js';
import * as queries from './outcomes.queries.js';
import { review } from './review.js';

@Injectable()
export class OutcomesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async review(ctx: TenantContext): Promise<OutcomeReviewResponse> {
    const { studioId } = ctx;
    const [sessions, outcomes] = await this.transaction.read(ctx, (sql) =>
      Promise.all([
        queries.countReviewedSessions(sql, studioId),
        queries.listOutcomes(sql, { studioId, after: null, limit: null }),
      ]),
    );
    return review(sessions, outcomes);
  }

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
}
