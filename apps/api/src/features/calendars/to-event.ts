import type { CalendarEvent } from '@studio/calendars';
import type { FeedVisit } from './calendar-feeds.queries.js';

/** What leaves the house of a visit: when, where, what service, and of the client what the studio allows. */
export function toEvent(visit: FeedVisit, feed: { readonly fitterId: string | null }): CalendarEvent {
  const { service, client, fitter, site, room, state } = visit;
  // In a fitter's own calendar the fitter goes without saying.
  const who = [client, feed.fitterId === null ? fitter : null].filter((name) => name !== null);
  return {
    uid: visit.id,
    sequence: visit.sequence,
    changedAt: visit.changedAt.getTime(),
    startsAt: visit.startsAt.getTime(),
    endsAt: visit.endsAt.getTime(),
    timeZone: visit.timeZone,
    summary: [service, ...who].join(', '),
    location: [site, room].filter((name) => name !== null).join(', '),
    status: state === 'cancelled' ? 'CANCELLED' : state === 'held' ? 'TENTATIVE' : 'CONFIRMED',
  };
}
