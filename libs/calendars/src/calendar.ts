import { Temporal } from 'temporal-polyfill';
import { contentLine, text } from './content-line.js';
import { clock, timeZoneComponent } from './time-zone.js';

export interface CalendarPerson {
  readonly name: string;
  readonly email: string;
}

export interface CalendarEvent {
  /** The same for ever, however often the event is moved (RFC 5545, 3.8.4.7). */
  readonly uid: string;
  /** Raised by one with each move and with the cancellation (3.8.7.4). */
  readonly sequence: number;
  /** Milliseconds since the epoch, as all times here. */
  readonly changedAt: number;
  readonly startsAt: number;
  readonly endsAt: number;
  /** IANA name, of the place. */
  readonly timeZone: string;
  readonly summary: string;
  readonly location: string;
  readonly status: 'TENTATIVE' | 'CONFIRMED' | 'CANCELLED';
  readonly organizer?: CalendarPerson;
  readonly attendee?: CalendarPerson;
}

export interface Calendar {
  /** What the receiver is to do with it (RFC 5546); absent in a feed. */
  readonly method?: 'REQUEST' | 'CANCEL';
  /** When it is made; a feed leaves it out, and its events bear the time they were changed (RFC 5545, 3.8.7.2). */
  readonly sentAt?: number;
  readonly name?: string;
  readonly events: readonly CalendarEvent[];
}

/** How often a program should look for changes: RFC 7986, 5.7. */
const refresh = 'PT15M';

/** An iCalendar object (RFC 5545). */
export function calendar({ method, sentAt, name, events }: Calendar): string {
  return [
    contentLine('BEGIN', 'VCALENDAR'),
    contentLine('VERSION', '2.0'),
    contentLine('PRODID', '-//Fitting studio//Appointments//EN'),
    ...(method === undefined ? [] : [contentLine('METHOD', method)]),
    ...(name === undefined
      ? []
      : [
          contentLine('NAME', text(name)),
          // From before RFC 7986; many programs know no other.
          contentLine('X-WR-CALNAME', text(name)),
          contentLine('REFRESH-INTERVAL', refresh, { VALUE: 'DURATION' }),
        ]),
    ...zonesOf(events),
    ...events.map((event) => component(event, sentAt ?? event.changedAt)),
    contentLine('END', 'VCALENDAR'),
  ].join('');
}

function zonesOf(events: readonly CalendarEvent[]): string[] {
  return [...new Set(events.map(({ timeZone }) => timeZone))].map((zone) => {
    const within = events.filter(({ timeZone }) => timeZone === zone);
    const from = Math.min(...within.map(({ startsAt }) => startsAt));
    const until = Math.max(...within.map(({ endsAt }) => endsAt));
    return timeZoneComponent(zone, from, until);
  });
}

function component(event: CalendarEvent, stamp: number): string {
  const { organizer, attendee } = event;
  return [
    contentLine('BEGIN', 'VEVENT'),
    contentLine('UID', event.uid),
    contentLine('SEQUENCE', String(event.sequence)),
    contentLine('DTSTAMP', utc(stamp)),
    contentLine('LAST-MODIFIED', utc(event.changedAt)),
    time('DTSTART', event.startsAt, event.timeZone),
    time('DTEND', event.endsAt, event.timeZone),
    contentLine('SUMMARY', text(event.summary)),
    contentLine('LOCATION', text(event.location)),
    contentLine('STATUS', event.status),
    ...(organizer ? [contentLine('ORGANIZER', `mailto:${organizer.email}`, { CN: organizer.name })] : []),
    ...(attendee
      ? [
          contentLine('ATTENDEE', `mailto:${attendee.email}`, {
            CN: attendee.name,
            ROLE: 'REQ-PARTICIPANT',
            PARTSTAT: 'NEEDS-ACTION',
            // Nobody reads the answer of a program: a client who cannot come calls.
            RSVP: 'FALSE',
          }),
        ]
      : []),
    contentLine('END', 'VEVENT'),
  ].join('');
}

/**
 * By the clock of the place. A time that it shows twice means the first of the two (3.3.5), but not to every program: so
 * that is told in UTC.
 */
function time(name: string, instant: number, zone: string): string {
  const moment = Temporal.Instant.fromEpochMilliseconds(instant).toZonedDateTimeISO(zone);
  const shown = moment.toPlainDateTime();
  const [first, last] = (['earlier', 'later'] as const).map(
    (disambiguation) => shown.toZonedDateTime(zone, { disambiguation }).epochMilliseconds,
  );
  return first === last ? contentLine(name, clock(moment), { TZID: zone }) : contentLine(name, utc(instant));
}

const utc = (instant: number): string =>
  `${new Date(instant).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
