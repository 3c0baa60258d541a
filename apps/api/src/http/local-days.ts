import { Temporal } from 'temporal-polyfill';

/**
 * The instant a day ends by the clock on the studio's wall, also where clocks change.
 *
 * @param day like 2026-03-29
 * @param timeZone IANA name
 * @example endOfDay('2026-03-29', 'Europe/Copenhagen') // 2026-03-29T22:00:00.000Z
 */
export function endOfDay(day: string, timeZone: string): Date {
  const next = Temporal.PlainDate.from(day).add({ days: 1 }).toZonedDateTime(timeZone);
  return new Date(next.epochMilliseconds);
}

/** The day it is at the studio. */
export function localDay(instant: Date, timeZone: string): string {
  return Temporal.Instant.fromEpochMilliseconds(instant.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .toString();
}

/** The day so many days after. */
export function daysAfter(day: string, days: number): string {
  return Temporal.PlainDate.from(day).add({ days }).toString();
}

/**
 * The instant a clock on the studio's wall first shows a time on a day; one that it leaps over is as much later.
 *
 * @param time like 10:00
 * @example timeOfDay('2026-03-30', '10:00', 'Europe/Copenhagen') // 2026-03-30T08:00:00.000Z
 */
export function timeOfDay(day: string, time: string, timeZone: string): Date {
  const moment = Temporal.PlainDate.from(day).toZonedDateTime({ timeZone, plainTime: time });
  return new Date(moment.epochMilliseconds);
}
