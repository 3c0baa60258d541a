import { Temporal } from 'temporal-polyfill';
import type { Offset, TimeWindow } from './plan.js';

const dayOf = (instant: Date, timeZone: string): Temporal.PlainDate =>
  Temporal.Instant.fromEpochMilliseconds(instant.getTime()).toZonedDateTimeISO(timeZone).toPlainDate();

/** Of a clock time that a change of clocks leaves out, the same time after it; of one that comes twice, the first. */
const at = (day: Temporal.PlainDate, time: string, timeZone: string): Date =>
  new Date(day.toZonedDateTime({ timeZone, plainTime: Temporal.PlainTime.from(time) }).epochMilliseconds);

/**
 * When a step is due: as its window opens by the clock on the studio's wall, so long after the day it counts from.
 * Right across a clock change, since days are counted on the calendar and not in hours. From a day that the month has
 * not, months lead to its last: 31 August and six months is 28 February.
 *
 * @param timeZone IANA name
 * @example dueAt(new Date('2026-03-20T13:00:00Z'), { weeks: 2 }, { from: '09:00', until: '19:00' }, 'Europe/Copenhagen');
 *   // 2026-04-03T07:00:00.000Z
 */
export const dueAt = (from: Date, after: Offset, window: TimeWindow, timeZone: string): Date =>
  at(dayOf(from, timeZone).add(after, { overflow: 'constrain' }), window.from, timeZone);

/** As a window opens on a day the studio chose. */
export const dueOn = (day: string, window: TimeWindow, timeZone: string): Date =>
  at(Temporal.PlainDate.from(day), window.from, timeZone);

/** Whole days on the calendar from one instant to another. */
export const daysBetween = (from: Date, to: Date, timeZone: string): number =>
  dayOf(from, timeZone).until(dayOf(to, timeZone), { largestUnit: 'day' }).days;

/** The instant itself when it lies within the window, or else the next time the window opens. */
export function inWindow(instant: Date, window: TimeWindow, timeZone: string): Date {
  const day = dayOf(instant, timeZone);
  const opens = at(day, window.from, timeZone);
  if (instant < opens) return opens;
  return instant < at(day, window.until, timeZone)
    ? instant
    : at(day.add({ days: 1 }), window.from, timeZone);
}

/** How long ago, in words: `3 days`, `2 weeks`, `6 months`. */
export function timeSince(days: number): string {
  if (days < 14) return days === 1 ? '1 day' : `${days} days`;
  return days < 61 ? `${Math.round(days / 7)} weeks` : `${Math.round(days / 30.44)} months`;
}
