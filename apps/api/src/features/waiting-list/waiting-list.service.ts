import { Injectable } from '@nestjs/common';
import {
  offerFreedTime,
  recordAudit,
  studioClock,
  TenantTransaction,
  usualOfferMinutes,
  type SqlRunner,
  type TenantContext,
} from '@studio/database';
import { daysAfter, localDay } from '../../http/local-days.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, InvalidRequest, StaleVersion } from '../../http/problem.js';
import { AppointmentsService } from '../appointments/index.js';
import { refuseClosed } from '../clients/index.js';
import { requirePermission } from '../screenings/index.js';
import { withdrawOpenOffer } from './answer-offer.js';
import { wishActions, wishActionsIn, type WishAction } from './states.js';
import type {
  ChangeWishRequest,
  CreateWishRequest,
  ListWishesQuery,
  WaitingListSettingsRequest,
  WaitingListSettingsResponse,
  WishPage,
  WishResponse,
} from './waiting-list.dto.js';
import { WishActionImpossible } from './waiting-list.errors.js';
import * as queries from './waiting-list.queries.js';

const everyWeekday = [1, 2, 3, 4, 5, 6, 7];

@Injectable()
export class WaitingListService {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly appointments: AppointmentsService,
  ) {}

  /** What is free already is offered at once. */
  async create(ctx: TenantContext, request: CreateWishRequest): Promise<WishResponse> {
    const { studioId } = ctx;
    const { clientId, weekdays = everyWeekday, times = [], fitterId = null, siteId = null } = request;
    return this.transaction.runOnce(ctx, async (tx) => {
      await refuseClosed(tx, studioId, clientId);
      await requirePermission(tx, { studioId, clientId }, 'booking');
      const { now, timeZone } = await studioClock(tx, studioId);
      const days = { firstDay: request.firstDay ?? localDay(now, timeZone), lastDay: request.lastDay };
      checkDays(days, localDay(now, timeZone));
      checkTimes(times);
      const { serviceId } = request;
      const id = await queries.insertWish(tx, {
        ...{ studioId, clientId, serviceId, fitterId, siteId, weekdays, times, ...days },
      });
      await offerFreedTime(tx, { studioId });
      await recordAudit(tx, ctx, { action: 'waiting-list.create', recordId: id });
      return toWish(found(await queries.findWish(tx, { studioId, id })));
    });
  }

  async get(ctx: TenantContext, id: string): Promise<WishResponse> {
    const key = { studioId: ctx.studioId, id };
    return toWish(found(await this.transaction.read(ctx, (sql) => queries.findWish(sql, key))));
  }

  async list(ctx: TenantContext, query: ListWishesQuery): Promise<WishPage> {
    const limit = pageSize(query);
    const { state = null, clientId = null, after = null } = query;
    const page = { studioId: ctx.studioId, state, clientId, after, limit: limit + 1 };
    const rows = await this.transaction.read(ctx, (sql) => queries.listWishes(sql, page));
    return pageOf(rows.map(toWish), limit);
  }

  async change(
    ctx: TenantContext,
    id: string,
    version: number,
    request: ChangeWishRequest,
  ): Promise<WishResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const wish = await possible(tx, { studioId, id }, 'change');
      const { now, timeZone } = await studioClock(tx, studioId);
      checkDays({ ...wish, ...request }, localDay(now, timeZone));
      checkTimes(request.times ?? []);
      if (!(await queries.updateWish(tx, { studioId, id, version }, request))) throw new StaleVersion();
      await offerFreedTime(tx, { studioId });
      const [before, after] = [toWish(wish), toWish(found(await queries.findWish(tx, { studioId, id })))];
      const fields = Object.keys(request);
      await recordAudit(tx, ctx, { action: 'waiting-list.change', recordId: id, fields, before, after });
      return after;
    });
  }

  /** A time that is offered just now is free again. */
  async withdraw(ctx: TenantContext, id: string, version: number): Promise<WishResponse> {
    return this.step(ctx, id, version, 'withdraw');
  }

  async resume(ctx: TenantContext, id: string, version: number): Promise<WishResponse> {
    return this.step(ctx, id, version, 'resume');
  }

  async settings(ctx: TenantContext): Promise<WaitingListSettingsResponse> {
    const minutes = await this.transaction.read(ctx, (sql) => queries.findOfferMinutes(sql, ctx.studioId));
    return { offerMinutes: minutes ?? usualOfferMinutes };
  }

  /** For offers made from now on. */
  async changeSettings(
    ctx: TenantContext,
    { offerMinutes }: WaitingListSettingsRequest,
  ): Promise<WaitingListSettingsResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const before = { offerMinutes: (await queries.findOfferMinutes(tx, studioId)) ?? usualOfferMinutes };
      const recordId = await queries.putOfferMinutes(tx, { studioId, offerMinutes });
      await recordAudit(tx, ctx, {
        ...{ action: 'waiting-list.change-settings', recordId, fields: ['offerMinutes'] },
        ...{ before, after: { offerMinutes } },
      });
      return { offerMinutes };
    });
  }

  private async step(
    ctx: TenantContext,
    id: string,
    version: number,
    action: 'withdraw' | 'resume',
  ): Promise<WishResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const { clientId } = await possible(tx, { studioId, id }, action);
      if (action === 'resume') await requirePermission(tx, { studioId, clientId }, 'booking');
      // Answers lock the offer first, and so does this.
      if (action === 'withdraw') await withdrawOpenOffer(tx, ctx, this.appointments, { wishId: id });
      const fields = { state: wishActions[action].to };
      if (!(await queries.updateWish(tx, { studioId, id, version }, fields))) throw new StaleVersion();
      await offerFreedTime(tx, { studioId });
      await recordAudit(tx, ctx, { action: `waiting-list.${action}`, recordId: id });
      return toWish(found(await queries.findWish(tx, { studioId, id })));
    });
  }
}

async function possible(
  sql: SqlRunner,
  key: { studioId: string; id: string },
  action: WishAction,
): Promise<queries.WishRecord> {
  const wish = found(await queries.findWish(sql, key));
  if (!wishActionsIn(wish.state).includes(action)) throw new WishActionImpossible(wish.state);
  return wish;
}

function checkDays({ firstDay, lastDay }: { firstDay: string; lastDay: string }, today: string): void {
  if (lastDay < firstDay || lastDay < today) {
    throw new InvalidRequest([{ field: 'lastDay', message: 'must not be before firstDay, nor in the past' }]);
  }
  if (lastDay > daysAfter(firstDay > today ? firstDay : today, 366)) {
    throw new InvalidRequest([{ field: 'lastDay', message: 'must be within a year' }]);
  }
}

function checkTimes(times: readonly { from: string; until: string }[]): void {
  const at = times.findIndex(({ from, until }) => until <= from);
  if (at >= 0) throw new InvalidRequest([{ field: `times.${at}.until`, message: 'must be later than from' }]);
}

const toWish = (wish: queries.WishRecord): WishResponse => ({ ...wish, allowed: wishActionsIn(wish.state) });
