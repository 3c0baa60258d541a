import { Temporal } from 'temporal-polyfill';

/** When a signed session asks how it went: common practice, no source. */
export const followUpWeeks = [2, 6] as const;

const atNine = Temporal.PlainTime.from('09:00');

/**
 * Nine in the morning, by the clock on the studio's wall, so many weeks after the day of the session: right across a
 * clock change, since days are counted on the calendar and not in hours.
 *
 * @param timeZone IANA name
 */
export function followUpInstant(sessionAt: Date, weeks: number, timeZone: string): Date {
  const due = Temporal.Instant.fromEpochMilliseconds(sessionAt.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDate()
    .add({ weeks })
    .toZonedDateTime({ timeZone, plainTime: atNine });
  return new Date(due.epochMilliseconds);
}
