import { Temporal } from 'temporal-polyfill';
import { contentLine } from './content-line.js';

/** One change of a zone's offset from UTC. */
interface Onset {
  /** What the clock showed at that moment, by the offset before. */
  readonly local: string;
  readonly fromMs: number;
  readonly toMs: number;
}

const beginning = '19700101T000000';

/**
 * A zone as VTIMEZONE (RFC 5545, 3.6.5): every change of its clock in a stretch of time, and the one before it. The
 * changes are told one by one and not as rules, so they are right also where a zone changes its rules.
 *
 * @param zone IANA name
 * @param from milliseconds since the epoch
 * @param until not before `from`
 */
export function timeZoneComponent(zone: string, from: number, until: number): string {
  const groups = new Map<string, Onset[]>();
  for (const onset of onsets(zone, from, until)) {
    const key = `${onset.fromMs}/${onset.toMs}`;
    groups.set(key, [...(groups.get(key) ?? []), onset]);
  }
  const observances = [...groups.values()].map(([first, ...more]) => {
    const { local, fromMs, toMs } = first as Onset;
    const kind = toMs > fromMs ? 'DAYLIGHT' : 'STANDARD';
    return [
      contentLine('BEGIN', kind),
      contentLine('DTSTART', local),
      contentLine('TZOFFSETFROM', utcOffset(fromMs)),
      contentLine('TZOFFSETTO', utcOffset(toMs)),
      more.length === 0 ? '' : contentLine('RDATE', more.map((onset) => onset.local).join(',')),
      contentLine('END', kind),
    ].join('');
  });
  return [
    contentLine('BEGIN', 'VTIMEZONE'),
    contentLine('TZID', zone),
    ...observances,
    contentLine('END', 'VTIMEZONE'),
  ].join('');
}

function onsets(zone: string, from: number, until: number): Onset[] {
  const start = Temporal.Instant.fromEpochMilliseconds(from).toZonedDateTimeISO(zone);
  const before = start.getTimeZoneTransition('previous');
  const found: Onset[] = [];
  // A zone whose clock never changed has had the offset it has from the beginning.
  if (!before) found.push({ local: beginning, fromMs: offsetMs(start), toMs: offsetMs(start) });
  let change = before ?? start.getTimeZoneTransition('next');
  while (change && (change === before || change.epochMilliseconds <= until)) {
    const fromMs = offsetMs(change.subtract({ nanoseconds: 1 }));
    found.push({
      local: clock(change.toInstant().toZonedDateTimeISO('UTC').add({ milliseconds: fromMs })),
      fromMs,
      toMs: offsetMs(change),
    });
    change = change.getTimeZoneTransition('next');
  }
  return found;
}

const offsetMs = (moment: Temporal.ZonedDateTime): number => moment.offsetNanoseconds / 1e6;

/** `20260329T020000` */
export const clock = (moment: Temporal.ZonedDateTime): string =>
  moment.toPlainDateTime().toString({ smallestUnit: 'second' }).replaceAll(/[-:]/g, '');

/** `+0100`, with seconds only where there are some (RFC 5545, 3.3.14). */
function utcOffset(ms: number): string {
  const seconds = Math.abs(ms) / 1000;
  const parts = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  const digits = parts.map((part) => String(part).padStart(2, '0'));
  return `${ms < 0 ? '-' : '+'}${digits.slice(0, parts[2] === 0 ? 2 : 3).join('')}`;
}
