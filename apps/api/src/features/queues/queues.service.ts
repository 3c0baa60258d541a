import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import { FailedOrderResponse, toQueues, type FailedOrderPage, type QueuesResponse } from './queues.dto.js';
import { StepImpossible, stepsIn, type FailedOrderStep } from './queues.errors.js';
import * as queries from './queues.queries.js';

/** A worker says every ten seconds that it lives. */
const heardOfWithinSeconds = 30;

@Injectable()
export class QueuesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async show(ctx: TenantContext): Promise<QueuesResponse> {
    return this.transaction.read(ctx, async (sql) => {
      const { alive, lastHeardOfAt } = await queries.findWorkers(sql, heardOfWithinSeconds);
      return {
        queues: toQueues(await queries.countByJob(sql, ctx.studioId)),
        workers: { alive, lastHeardOfAt: lastHeardOfAt?.toISOString() ?? null },
      };
    });
  }

  async listFailed(ctx: TenantContext, query: PageQuery): Promise<FailedOrderPage> {
    const limit = pageSize(query);
    const of = { studioId: ctx.studioId, after: query.after ?? null, limit: limit + 1 };
    const rows = await this.transaction.read(ctx, (sql) => queries.listFailed(sql, of));
    return pageOf(
      rows.map((row) => FailedOrderResponse.of(row)),
      limit,
    );
  }

  async retry(ctx: TenantContext, id: string): Promise<void> {
    await this.step(ctx, id, 'retry', queries.orderAgain);
  }

  async discard(ctx: TenantContext, id: string): Promise<void> {
    await this.step(ctx, id, 'discard', queries.markDiscarded);
  }

  private async step(
    ctx: TenantContext,
    id: string,
    step: FailedOrderStep,
    write: (tx: EntityManager, key: { studioId: string; id: string }) => Promise<void>,
  ): Promise<void> {
    const key = { studioId: ctx.studioId, id };
    await this.transaction.run(ctx, async (tx) => {
      const state = found(await queries.findOrderStateForUpdate(tx, key));
      if (!stepsIn[state].includes(step)) throw new StepImpossible(state);
      await write(tx, key);
      await recordAudit(tx, ctx, { action: `failed-orders.${step}`, recordId: id });
    });
  }
}
