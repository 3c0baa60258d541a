import { describe, expect, it } from '@jest/globals';
import { calendar, type CalendarEvent } from '@studio/calendars';
import fc from 'fast-check';
import ICAL from 'ical.js';

// RFC 5545 (iCalendar), RFC 6868 (parameter values), RFC 5546 (iTIP); read by ical.js, which wrote none of it.

const event = (change: Partial<CalendarEvent> = {}): CalendarEvent => ({
  uid: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11',
  sequence: 0,
  changedAt: Date.UTC(2007, 0, 1),
  startsAt: Date.UTC(2007, 5, 1, 14),
  endsAt: Date.UTC(2007, 5, 1, 15),
  timeZone: 'America/New_York',
  summary: 'First fit',
  location: 'Fit bay',
  status: 'CONFIRMED',
  ...change,
});
const unfold = (text: string): string[] => text.replaceAll('\r\n ', '').split('\r\n');
const parse = (text: string): ICAL.Component => new ICAL.Component(ICAL.parse(text) as unknown[]);
const eventOf = (text: string): ICAL.Component => {
  const found = parse(text).getFirstSubcomponent('vevent');
  if (!found) throw new Error('there is no event');
  return found;
};

describe('RFC 5545, 3.1 content lines', () => {
  it.each(['a', 'ø', '漢', '🚲'])(
    'no line of %s is longer than 75 octets, and unfolded it is whole',
    (character) => {
      for (let length = 1; length < 200; length += 1) {
        const summary = character.repeat(length);
        const text = calendar({ events: [event({ summary })] });
        for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        expect(unfold(text)).toContain(`SUMMARY:${summary}`);
        // Never within a character: each piece alone is whole text.
        expect(text).not.toContain('\uFFFD');
      }
    },
  );

  it('ends every line with CRLF', () => {
    const text = calendar({ events: [event({ summary: 'a\nb\rc' })] });
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });
});

describe('RFC 5545, 3.3.11 text', () => {
  it('is escaped as in the standard’s example', () => {
    const summary = 'Project XYZ Final Review\nConference Room - 3B\nCome Prepared.';
    expect(unfold(calendar({ events: [event({ summary })] }))).toContain(
      String.raw`SUMMARY:Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`,
    );
  });

  it('survives any characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 120 }), (summary) => {
        const written = eventOf(calendar({ events: [event({ summary })] })).getFirstPropertyValue('summary');
        const expected = summary
          .replaceAll(/\r\n|\r/g, '\n')
          // oxlint-disable-next-line no-control-regex
          .replaceAll(/[\u0000-\u0008\u000b-\u001f\u007f]/g, ' ');
        expect(written).toBe(expected);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('cannot begin a property of its own', () => {
    const summary = 'x\r\nATTENDEE:mailto:evil@riders.example\nEND:VEVENT';
    const found = eventOf(calendar({ events: [event({ summary })] }));
    expect(found.getFirstProperty('attendee')).toBeNull();
  });
});

describe('RFC 6868 parameter values', () => {
  it('are encoded as in its example', () => {
    const organizer = { name: 'George Herman "Babe" Ruth', email: 'babe@example.com' };
    const text = calendar({ events: [event({ organizer })] });
    expect(unfold(text)).toContain("ORGANIZER;CN=George Herman ^'Babe^' Ruth:mailto:babe@example.com");
    expect(eventOf(text).getFirstProperty('organizer')?.getFirstParameter('cn')).toBe(organizer.name);
  });

  it('are quoted where they hold a colon, a semicolon or a comma', () => {
    const organizer = { name: 'Fit, Bike; and: more', email: 'a@example.com' };
    const found = eventOf(calendar({ events: [event({ organizer })] })).getFirstProperty('organizer');
    expect(found?.getFirstParameter('cn')).toBe(organizer.name);
  });
});

describe('RFC 5545, 3.6.5 time zones', () => {
  it('tells of New York since 2007 what the standard’s example does', () => {
    const events = [event({ startsAt: Date.UTC(2007, 3, 1), endsAt: Date.UTC(2007, 11, 1) })];
    const lines = unfold(calendar({ events })).join('\n');
    expect(lines).toContain(
      'BEGIN:STANDARD\nDTSTART:20071104T020000\nTZOFFSETFROM:-0400\nTZOFFSETTO:-0500\nEND:STANDARD',
    );
    expect(lines).toContain(
      'BEGIN:DAYLIGHT\nDTSTART:20070311T020000\nTZOFFSETFROM:-0500\nTZOFFSETTO:-0400\nEND:DAYLIGHT',
    );
  });

  it('tells of the rules before 2007 with their own days (3.6.5, "last Sunday of April … October")', () => {
    const events = [event({ startsAt: Date.UTC(1998, 5, 1), endsAt: Date.UTC(1998, 11, 1) })];
    const lines = unfold(calendar({ events })).join('\n');
    expect(lines).toContain('DTSTART:19980405T020000');
    expect(lines).toContain('DTSTART:19981025T020000');
  });

  it.each([
    ['Europe/Copenhagen', '2026-03-29T00:30:00Z'],
    ['Europe/Copenhagen', '2026-03-29T01:00:00Z'],
    ['Europe/Copenhagen', '2026-10-25T00:30:00Z'],
    ['Europe/Copenhagen', '2026-10-25T01:30:00Z'],
    ['Europe/Copenhagen', '2026-10-25T02:00:00Z'],
    ['America/New_York', '2026-03-08T06:59:00Z'],
    ['America/New_York', '2026-03-08T07:00:00Z'],
    ['America/New_York', '2026-11-01T05:30:00Z'],
    ['America/New_York', '2026-11-01T06:30:00Z'],
    ['Australia/Sydney', '2026-04-04T15:30:00Z'],
    ['Australia/Sydney', '2026-04-04T16:30:00Z'],
    ['Australia/Sydney', '2026-10-03T16:00:00Z'],
    ['Asia/Kolkata', '2026-06-01T00:00:00Z'],
    ['UTC', '2026-06-01T00:00:00Z'],
    ['Europe/Dublin', '2026-12-24T10:00:00Z'],
    ['Africa/Casablanca', '2026-03-01T10:00:00Z'],
    ['America/St_Johns', '2026-07-01T10:00:00Z'],
  ])('in %s another program finds the instant %s again', (timeZone, instant) => {
    const startsAt = Date.parse(instant);
    const text = calendar({ events: [event({ timeZone, startsAt, endsAt: startsAt + 90 * 60_000 })] });
    const parsed = parse(text);
    const zone = parsed.getFirstSubcomponent('vtimezone');
    expect(zone?.getFirstPropertyValue('tzid')).toBe(timeZone);
    // Only what the calendar itself says of the zone.
    ICAL.TimezoneService.reset();
    ICAL.TimezoneService.register(new ICAL.Timezone(zone));
    const found = new ICAL.Event(eventOf(text));
    expect(found.startDate.toJSDate().toISOString()).toBe(new Date(startsAt).toISOString());
    expect(found.endDate.toJSDate().getTime() - found.startDate.toJSDate().getTime()).toBe(90 * 60_000);
  });

  it('3.3.5: what the clock shows twice is told in UTC, the first time and the second', () => {
    const zone = { timeZone: 'Europe/Copenhagen', endsAt: Date.parse('2026-10-25T03:00:00Z') };
    const first = calendar({ events: [event({ ...zone, startsAt: Date.parse('2026-10-25T00:30:00Z') })] });
    const second = calendar({ events: [event({ ...zone, startsAt: Date.parse('2026-10-25T01:30:00Z') })] });
    const before = calendar({ events: [event({ ...zone, startsAt: Date.parse('2026-10-24T23:59:00Z') })] });
    expect(first).toContain('DTSTART:20261025T003000Z');
    expect(second).toContain('DTSTART:20261025T013000Z');
    expect(before).toContain('DTSTART;TZID=Europe/Copenhagen:20261025T015900');
  });
});

describe('what must be there', () => {
  const names = (component: ICAL.Component | null): string[] =>
    component?.getAllProperties().map(({ name }) => name) ?? [];

  it('RFC 5545, 3.6 and 3.6.1: version and product; UID, stamp and start, each once', () => {
    const text = calendar({ name: 'Kim', events: [event()] });
    expect(names(parse(text))).toEqual(expect.arrayContaining(['version', 'prodid']));
    const properties = names(eventOf(text));
    for (const name of ['uid', 'dtstamp', 'dtstart', 'dtend', 'sequence', 'status', 'last-modified']) {
      expect(properties.filter((one) => one === name)).toEqual([name]);
    }
    // 3.8.7.2: without a method the stamp is when the event was last revised.
    expect(eventOf(text).getFirstPropertyValue('dtstamp')).toEqual(
      eventOf(text).getFirstPropertyValue('last-modified'),
    );
  });

  it.each([
    ['REQUEST', 'CONFIRMED'],
    ['CANCEL', 'CANCELLED'],
  ] as const)('RFC 5546, 3.2: %s has organizer, attendee, sequence and stamp', (method, status) => {
    const person = { name: 'A', email: 'a@example.com' };
    const text = calendar({
      ...{ method, sentAt: Date.UTC(2026, 0, 2, 3, 4, 5) },
      events: [event({ status, sequence: 2, organizer: person, attendee: person })],
    });
    expect(parse(text).getFirstPropertyValue('method')).toBe(method);
    expect(names(eventOf(text))).toEqual(
      expect.arrayContaining(['organizer', 'attendee', 'sequence', 'uid', 'status']),
    );
    expect(text).toContain('DTSTAMP:20260102T030405Z');
  });

  it('3.3.14: an offset has seconds only where there are some', () => {
    // Paris kept its own mean time, 9 min 21 s ahead of Greenwich, until 1911 (IANA time zone database).
    const then = { startsAt: Date.UTC(1900, 0, 1), endsAt: Date.UTC(1900, 0, 2), timeZone: 'Europe/Paris' };
    expect(calendar({ events: [event(then)] })).toContain('TZOFFSETTO:+000921');
    expect(calendar({ events: [event()] })).toContain('TZOFFSETTO:-0400');
  });
});
