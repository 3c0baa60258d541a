import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { afterQuietHours, beforeQuietHours, reminderTimes } from './index.js';

const night = { from: '21:00', until: '08:00' };
const zones = ['Europe/Copenhagen', 'America/New_York', 'Australia/Sydney'] as const;
const at = (text: string): Date => new Date(text);
const clock = (instant: Date, timeZone: string): Temporal.PlainTime =>
  Temporal.Instant.fromEpochMilliseconds(instant.getTime()).toZonedDateTimeISO(timeZone).toPlainTime();

describe('quiet hours', () => {
  it.each([
    ['2026-06-01T18:59:59Z', 'Europe/Copenhagen', '2026-06-01T18:59:59Z'],
    ['2026-06-01T19:00:00Z', 'Europe/Copenhagen', '2026-06-02T06:00:00Z'],
    ['2026-06-02T05:59:00Z', 'Europe/Copenhagen', '2026-06-02T06:00:00Z'],
    ['2026-06-02T06:00:00Z', 'Europe/Copenhagen', '2026-06-02T06:00:00Z'],
    // The night the clocks go forward is an hour shorter, the one they go back an hour longer.
    ['2026-03-28T21:00:00Z', 'Europe/Copenhagen', '2026-03-29T06:00:00Z'],
    ['2026-10-24T20:00:00Z', 'Europe/Copenhagen', '2026-10-25T07:00:00Z'],
    ['2026-03-08T03:00:00Z', 'America/New_York', '2026-03-08T12:00:00Z'],
    ['2026-11-01T03:00:00Z', 'America/New_York', '2026-11-01T13:00:00Z'],
    ['2026-10-03T12:00:00Z', 'Australia/Sydney', '2026-10-03T21:00:00Z'],
    ['2026-04-04T12:00:00Z', 'Australia/Sydney', '2026-04-04T22:00:00Z'],
  ])('%s in %s waits until %s', (instant, timeZone, until) => {
    expect(afterQuietHours(at(instant), night, timeZone)).toEqual(at(until));
  });

  it('that end at a time the clock skips end after the gap; at one it shows twice, the second time', () => {
    const early = { from: '22:00', until: '02:30' };
    expect(afterQuietHours(at('2026-03-29T00:00:00Z'), early, 'Europe/Copenhagen')).toEqual(
      at('2026-03-29T01:30:00Z'),
    );
    expect(afterQuietHours(at('2026-10-25T00:10:00Z'), early, 'Europe/Copenhagen')).toEqual(
      at('2026-10-25T01:30:00Z'),
    );
  });

  const times = fc.record({
    instant: fc.date({
      min: at('2026-01-01T00:00:00Z'),
      max: at('2027-12-31T00:00:00Z'),
      noInvalidDate: true,
    }),
    timeZone: fc.constantFrom(...zones),
    from: fc.integer({ min: 0, max: 95 }),
    length: fc.integer({ min: 1, max: 95 }),
  });
  const time = (quarters: number): string => new Date((quarters % 96) * 900_000).toISOString().slice(11, 16);

  it('never let out a moment within them, nor hold one back more than a day', () => {
    fc.assert(
      fc.property(times, ({ instant, timeZone, from, length }) => {
        const quiet = { from: time(from), until: time(from + length) };
        const isQuiet = (moment: Date): boolean => {
          const now = clock(moment, timeZone);
          const after = Temporal.PlainTime.compare(now, quiet.from) >= 0;
          const before = Temporal.PlainTime.compare(now, quiet.until) < 0;
          return quiet.from < quiet.until ? after && before : after || before;
        };
        const allowed = afterQuietHours(instant, quiet, timeZone);
        expect(isQuiet(allowed)).toBe(false);
        if (!isQuiet(instant)) expect(allowed).toEqual(instant);
        expect(allowed.getTime() - instant.getTime()).toBeGreaterThanOrEqual(0);
        expect(allowed.getTime() - instant.getTime()).toBeLessThanOrEqual(25 * 3_600_000);
        const before = beforeQuietHours(instant, quiet, timeZone);
        expect(instant.getTime() - before.getTime()).toBeGreaterThanOrEqual(0);
      }),
      { seed: 5, numRuns: 500 },
    );
  });

  it('are none where none are set', () => {
    expect(afterQuietHours(at('2026-06-01T01:00:00Z'), null, 'UTC')).toEqual(at('2026-06-01T01:00:00Z'));
  });
});

describe('reminders of a visit', () => {
  const now = at('2026-01-01T00:00:00Z');

  it.each([
    // Two days before, the clock shows the same as at the visit; two hours are two hours.
    ['Europe/Copenhagen', '2026-03-30T08:00:00Z', '2026-03-28T09:00:00Z', '2026-03-30T06:00:00Z'],
    ['Europe/Copenhagen', '2026-10-26T09:00:00Z', '2026-10-24T08:00:00Z', '2026-10-26T07:00:00Z'],
    ['America/New_York', '2026-03-09T14:00:00Z', '2026-03-07T15:00:00Z', '2026-03-09T12:00:00Z'],
    ['America/New_York', '2026-11-02T15:00:00Z', '2026-10-31T14:00:00Z', '2026-11-02T13:00:00Z'],
    ['Australia/Sydney', '2026-10-04T23:00:00Z', '2026-10-03T00:00:00Z', '2026-10-04T21:00:00Z'],
    ['Australia/Sydney', '2026-04-06T00:00:00Z', '2026-04-03T23:00:00Z', '2026-04-05T22:00:00Z'],
    // Two hours before, with the clock put forward in between: by the clock it is three.
    ['Europe/Copenhagen', '2026-03-29T02:00:00Z', '2026-03-27T03:00:00Z', '2026-03-29T00:00:00Z'],
    // Month and year ends.
    ['Europe/Copenhagen', '2027-01-01T11:00:00Z', '2026-12-30T11:00:00Z', '2027-01-01T09:00:00Z'],
    ['Europe/Copenhagen', '2028-03-01T11:00:00Z', '2028-02-28T11:00:00Z', '2028-03-01T09:00:00Z'],
  ])('in %s at %s are sent at %s and %s', (timeZone, startsAt, twoDays, twoHours) => {
    expect(reminderTimes({ startsAt: at(startsAt), now, timeZone, quiet: null })).toEqual({
      twoDays: at(twoDays),
      twoHours: at(twoHours),
    });
  });

  it('keep the quiet hours: one waits for their end, the other comes before them', () => {
    const startsAt = at('2026-06-10T07:00:00Z');
    const early = reminderTimes({
      startsAt,
      now,
      timeZone: 'Europe/Copenhagen',
      quiet: { from: '20:00', until: '10:00' },
    });
    expect(early).toEqual({ twoDays: at('2026-06-08T08:00:00Z'), twoHours: at('2026-06-09T18:00:00Z') });
  });

  it('are left out when their time has passed or has almost come', () => {
    const visit = { startsAt: at('2026-06-10T12:00:00Z'), timeZone: 'Europe/Copenhagen', quiet: null };
    const on = (moment: string) => reminderTimes({ ...visit, now: at(moment) });
    expect(on('2026-06-08T11:00:00Z').twoDays).toEqual(at('2026-06-08T12:00:00Z'));
    expect(on('2026-06-08T11:30:00Z').twoDays).toBeNull();
    expect(on('2026-06-10T09:30:00Z')).toEqual({ twoDays: null, twoHours: null });
  });
});
