import { Temporal } from 'temporal-polyfill';

/** By the clock on the studio's wall, like 21:00 to 08:00; from the first, up to and without the second. */
export interface QuietHours {
  readonly from: string;
  readonly until: string;
}

/**
 * The instant itself outside the quiet hours, else their end. Where the clock shows the end twice it is the second
 * time, and where it skips it, after the gap: never is it quiet again a moment later.
 *
 * @param timeZone IANA name
 */
export function afterQuietHours(instant: Date, quiet: QuietHours | null, timeZone: string): Date {
  const stretch = quiet && quietStretch(instant, quiet, timeZone);
  if (!stretch) return instant;
  return new Date(stretch.end.toZonedDateTime(timeZone, { disambiguation: 'later' }).epochMilliseconds);
}

/** The instant itself outside the quiet hours, else the moment they began. */
export function beforeQuietHours(instant: Date, quiet: QuietHours | null, timeZone: string): Date {
  const stretch = quiet && quietStretch(instant, quiet, timeZone);
  if (!stretch) return instant;
  return new Date(stretch.start.toZonedDateTime(timeZone, { disambiguation: 'earlier' }).epochMilliseconds);
}

/** The quiet hours the instant lies in, as the clock shows them; null outside. */
function quietStretch(
  instant: Date,
  { from, until }: QuietHours,
  timeZone: string,
): { start: Temporal.PlainDateTime; end: Temporal.PlainDateTime } | null {
  const local = Temporal.Instant.fromEpochMilliseconds(instant.getTime())
    .toZonedDateTimeISO(timeZone)
    .toPlainDateTime();
  const [start, end] = [Temporal.PlainTime.from(from), Temporal.PlainTime.from(until)];
  const overnight = Temporal.PlainTime.compare(start, end) > 0;
  // The stretch that began today, and overnight also the one of yesterday.
  for (const day of [local.toPlainDate(), local.toPlainDate().subtract({ days: 1 })]) {
    const stretch = {
      start: day.toPlainDateTime(start),
      end: day.add({ days: overnight ? 1 : 0 }).toPlainDateTime(end),
    };
    const begun = Temporal.PlainDateTime.compare(stretch.start, local) <= 0;
    if (begun && Temporal.PlainDateTime.compare(local, stretch.end) < 0) return stretch;
  }
  return null;
}
