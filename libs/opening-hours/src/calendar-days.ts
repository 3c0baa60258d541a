import { Temporal } from 'temporal-polyfill';

/** One day as the clock on the wall of a place goes through it: 23, 24 or 25 hours, or none at all. */
export interface CalendarDay {
  /** Like `2026-03-29`. */
  readonly day: string;
  /** 1 Monday to 7 Sunday. */
  readonly weekday: number;
  /** Midnight as if the clock showed UTC: what minutes of the clock are added to. */
  readonly localMidnight: number;
  readonly start: number;
  readonly end: number;
  /** Local time minus UTC, from the start of the day. */
  readonly offsetMs: number;
  /** Where the clock is put forward or back in the course of the day. */
  readonly change: { readonly at: number; readonly offsetMs: number } | null;
}

const dayMs = 86_400_000;

/**
 * The days of a stretch, both ends included.
 *
 * @param timeZone IANA name
 * @throws RangeError for a day or a zone that does not exist
 */
export function calendarDays(timeZone: string, firstDay: string, lastDay: string): CalendarDay[] {
  const days: CalendarDay[] = [];
  const last = Temporal.PlainDate.from(lastDay);
  let date = Temporal.PlainDate.from(firstDay);
  let start = date.toZonedDateTime(timeZone);
  while (Temporal.PlainDate.compare(date, last) <= 0) {
    const tomorrow = date.add({ days: 1 });
    const next = tomorrow.toZonedDateTime(timeZone);
    days.push({
      day: date.toString(),
      weekday: date.dayOfWeek,
      localMidnight: Date.parse(`${date.toString()}T00:00:00Z`),
      start: start.epochMilliseconds,
      end: next.epochMilliseconds,
      offsetMs: start.offsetNanoseconds / 1e6,
      change: changeDuring(start, next),
    });
    date = tomorrow;
    start = next;
  }
  return days;
}

function changeDuring(start: Temporal.ZonedDateTime, next: Temporal.ZonedDateTime): CalendarDay['change'] {
  if (next.epochMilliseconds - start.epochMilliseconds === dayMs) return null;
  const change = start.getTimeZoneTransition('next');
  if (!change || change.epochMilliseconds >= next.epochMilliseconds) return null;
  return { at: change.epochMilliseconds, offsetMs: change.offsetNanoseconds / 1e6 };
}

/** The day it is in a place; a part of a millisecond, which PostgreSQL's clock has, does not count. */
export function dayAt(instantMs: number, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(Math.floor(instantMs))
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .toString();
}

/**
 * The first instant of the day at which the clock shows at least so many minutes after midnight. So a time that the
 * clock skips is the instant of the jump, a time it shows twice is the first of the two, and 1440 is the day's end.
 *
 * @param minutes 0 to 1440
 */
export function clockInstant(day: CalendarDay, minutes: number): number {
  if (minutes >= 1440) return day.end;
  const local = day.localMidnight + minutes * 60_000;
  const before = local - day.offsetMs;
  const instant =
    day.change && before >= day.change.at ? Math.max(day.change.at, local - day.change.offsetMs) : before;
  // A day can begin after midnight, where the clock is put forward then.
  return Math.min(Math.max(instant, day.start), day.end);
}

/** An instant as a place's clock shows it (RFC 9557), like `2026-03-29T03:30:00+02:00[Europe/Copenhagen]`. */
export function localTime(instantMs: number, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(instantMs)
    .toZonedDateTimeISO(timeZone)
    .toString({ smallestUnit: 'second' });
}

/**
 * Like `localTime`, for many instants of the same days.
 *
 * @throws RangeError for an instant in none of the days
 */
export function localTimeOn(days: readonly CalendarDay[], instantMs: number, timeZone: string): string {
  const day = days.find(({ start, end }) => start <= instantMs && instantMs < end);
  if (!day) throw new RangeError('the instant lies in none of the days');
  const { change, offsetMs } = day;
  const offset = change && instantMs >= change.at ? change.offsetMs : offsetMs;
  const local = new Date(instantMs + offset).toISOString().slice(0, 19);
  const ahead = new Date(Math.abs(offset)).toISOString().slice(11, 16);
  return `${local}${offset < 0 ? '-' : '+'}${ahead}[${timeZone}]`;
}
