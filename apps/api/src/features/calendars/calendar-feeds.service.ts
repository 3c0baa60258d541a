import { Inject, Injectable } from '@nestjs/common';
import type { ApiConfig } from '@studio/config';
import {
  newSecret,
  recordAudit,
  secretHash,
  tenantToken,
  TenantTransaction,
  type CalendarFeed,
  type TenantContext,
} from '@studio/database';
import { ApiConfigToken } from '../../http/http.module.js';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, InvalidRequest, NotAllowed, UnknownReference } from '../../http/problem.js';
import {
  CalendarFeedResponse,
  type AddressedCalendarFeedResponse,
  type CalendarFeedPage,
  type CreateCalendarFeedRequest,
  type ListCalendarFeedsQuery,
} from './calendar-feeds.dto.js';
import * as queries from './calendar-feeds.queries.js';
import { FeedRevoked } from './calendars.errors.js';

@Injectable()
export class CalendarFeedsService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(ApiConfigToken) private readonly config: ApiConfig,
  ) {}

  async create(
    ctx: TenantContext,
    { fitterId, roomId }: CreateCalendarFeedRequest,
  ): Promise<AddressedCalendarFeedResponse> {
    if ((fitterId === undefined) === (roomId === undefined)) {
      throw new InvalidRequest([{ field: 'fitterId', message: 'name either a fitter or a room' }]);
    }
    const { studioId } = ctx;
    const of = { fitterId: fitterId ?? null, roomId: roomId ?? null };
    requireMayRead(ctx, of);
    return this.transaction.run(ctx, async (tx) => {
      const exists = await queries.exists(tx, studioId, of);
      if (!exists) throw new UnknownReference(fitterId === undefined ? 'roomId' : 'fitterId');
      const secret = newSecret();
      const row = { studioId, ...of, secretHash: secretHash(secret), createdBy: ctx.userId as string };
      const id = await queries.insertFeed(tx, row);
      await recordAudit(tx, ctx, { action: 'calendar-feeds.create', recordId: id });
      return this.addressed(found(await queries.findFeed(tx, { studioId, id })), secret);
    });
  }

  async list(ctx: TenantContext, query: ListCalendarFeedsQuery): Promise<CalendarFeedPage> {
    const limit = pageSize(query);
    const page = { studioId: ctx.studioId, after: query.after ?? null, limit: limit + 1 };
    const rows = await this.transaction.run(ctx, (tx) => queries.listFeeds(tx, page));
    return pageOf(
      rows.map((row) => CalendarFeedResponse.of(row)),
      limit,
    );
  }

  async renew(ctx: TenantContext, id: string): Promise<AddressedCalendarFeedResponse> {
    const secret = newSecret();
    const feed = await this.change(ctx, id, 'renew', {
      secretHash: secretHash(secret),
      renewedAt: queries.now,
    });
    return this.addressed(feed, secret);
  }

  async revoke(ctx: TenantContext, id: string): Promise<CalendarFeedResponse> {
    return CalendarFeedResponse.of(await this.change(ctx, id, 'revoke', { revokedAt: queries.now }));
  }

  private async change(
    ctx: TenantContext,
    id: string,
    action: 'renew' | 'revoke',
    change: queries.FeedChange,
  ): Promise<CalendarFeed> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const feed = found(await queries.findFeed(tx, key));
      requireMayRead(ctx, feed);
      if (!(await queries.updateStanding(tx, key, change))) throw new FeedRevoked();
      await recordAudit(tx, ctx, { action: `calendar-feeds.${action}`, recordId: id });
      return found(await queries.findFeed(tx, key));
    });
  }

  private addressed(feed: CalendarFeed, secret: string): AddressedCalendarFeedResponse {
    const { studioId, id } = feed;
    const address = `${this.config.publicUrl}/calendars/${tenantToken({ studioId, id, secret })}.ics`;
    return { ...CalendarFeedResponse.of(feed), address };
  }
}

/** @throws NotAllowed for the feed of another person, unless to the owner */
function requireMayRead(ctx: TenantContext, { fitterId }: { fitterId: string | null }): void {
  if (fitterId !== null && fitterId !== ctx.userId && !ctx.roles.includes('owner')) throw new NotAllowed();
}
