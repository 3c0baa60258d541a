import { Injectable } from '@nestjs/common';
import { calendar } from '@studio/calendars';
import { hashesEqual, readTenantToken, secretHash, TenantTransaction } from '@studio/database';
import { createHash } from 'node:crypto';
import { NotFound } from '../../http/problem.js';
import { findFeedToRead, listVisits } from './calendar-feeds.queries.js';
import { FeedGone } from './calendars.errors.js';
import { toEvent } from './to-event.js';

@Injectable()
export class CalendarsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /**
   * @throws NotFound for an address that never was or was renewed
   * @throws FeedGone when it was revoked, or its fitter has left
   */
  async read(file: string): Promise<{ content: string; etag: string }> {
    const token = file.endsWith('.ics') ? readTenantToken(file.slice(0, -'.ics'.length)) : null;
    if (!token) throw new NotFound();
    const { studioId, id, secret } = token;
    const content = await this.transaction.readFromReplica(token, async (sql) => {
      const feed = await findFeedToRead(sql, { studioId, id });
      if (!feed || !hashesEqual(feed.secretHash, secretHash(secret))) throw new NotFound();
      if (feed.revoked) throw new FeedGone();
      const visits = await listVisits(sql, studioId, feed);
      return calendar({ name: feed.name, events: visits.map((visit) => toEvent(visit, feed)) });
    });
    return { content, etag: `"${createHash('sha256').update(content).digest('base64url')}"` };
  }
}
