import { Temporal } from 'temporal-polyfill';
import { afterQuietHours, beforeQuietHours, type QuietHours } from './quiet-hours.js';

/** How close to now a reminder would only repeat the confirmation; common practice, no source. */
const tooSoonMs = 60 * 60_000;

export interface ReminderTimes {
  readonly twoDays: Date | null;
  readonly twoHours: Date | null;
}

/**
 * When to remind of a visit: two days before, when the clock shows the same as at the visit, and two hours before. What
 * would fall into the quiet hours waits for their end; two hours before would then be too late, so that one goes out as
 * they begin. Null for one that lies in the past or within an hour of now.
 *
 * @param timeZone of the place of the visit, IANA name
 */
export function reminderTimes(visit: {
  startsAt: Date;
  now: Date;
  timeZone: string;
  quiet: QuietHours | null;
}): ReminderTimes {
  const { startsAt, now, timeZone, quiet } = visit;
  const start = Temporal.Instant.fromEpochMilliseconds(startsAt.getTime()).toZonedDateTimeISO(timeZone);
  const ifAhead = (at: Date): Date | null => (at.getTime() - now.getTime() >= tooSoonMs ? at : null);
  const before = (duration: Temporal.DurationLike): Date =>
    new Date(start.subtract(duration).epochMilliseconds);
  return {
    twoDays: ifAhead(afterQuietHours(before({ days: 2 }), quiet, timeZone)),
    twoHours: ifAhead(beforeQuietHours(before({ hours: 2 }), quiet, timeZone)),
  };
}
