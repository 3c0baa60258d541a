import { Injectable } from '@nestjs/common';
import { TenantTransaction, type TenantContext } from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import type { ListShoeWorksQuery, ShoeWorkAtDeskPage, ShoeWorkAtDeskResponse } from './desk.dto.js';
import { followFirstRide } from './follow-first-ride.js';
import { settle } from './settle.js';
import * as queries from './shoe-work.queries.js';
import { bringTo, hold, requireReachable } from './the-case.js';

/** What the front desk sees of shoe work, and does. */
@Injectable()
export class ShoeWorkDeskService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, query: ListShoeWorksQuery): Promise<ShoeWorkAtDeskPage> {
    const { clientId = null, fitSessionId = null, state = null, after = null } = query;
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, clientId, fitSessionId, state, after, limit: limit + 1 };
    return pageOf(await this.transaction.read(ctx, (sql) => queries.listDeskRows(sql, page)), limit);
  }

  async get(ctx: TenantContext, id: string): Promise<ShoeWorkAtDeskResponse> {
    const key = { studioId: ctx.studioId, id };
    return found(await this.transaction.read(ctx, (sql) => queries.findDeskRow(sql, key)));
  }

  /** The shoes go home: the first ride is asked after. */
  async collect(ctx: TenantContext, id: string, version: number): Promise<ShoeWorkAtDeskResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const held = await hold(tx, key, version);
      requireReachable(held, 'collected');
      await bringTo(tx, ctx, held, 'collected');
      await settle(tx, key, 'the shoes were collected');
      await followFirstRide(tx, ctx, { fitSessionId: held.row.fitSessionId });
      return found(await queries.findDeskRow(tx, key));
    });
  }
}
