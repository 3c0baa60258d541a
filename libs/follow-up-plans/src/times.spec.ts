import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import type { Offset } from './plan.js';
import { daysBetween, dueAt, dueOn, inWindow, timeSince } from './times.js';

const window = { from: '09:00', until: '19:00' };
const copenhagen = 'Europe/Copenhagen';
const sydney = 'Australia/Sydney';
const denver = 'America/Denver';

// Clock changes of 2026: Copenhagen forward 29 March, back 25 October (EU directive 2000/84/EC); Denver forward 8 March,
// back 1 November (Energy Policy Act of 2005, section 110); Sydney back 5 April, forward 4 October (Standard Time Act
// 1987 (NSW)). As the IANA time zone database has them.
describe('dueAt', () => {
  const cases: [string, string, Offset, string, string][] = [
    [
      'Copenhagen, forward between',
      '2026-03-20T13:00:00Z',
      { weeks: 2 },
      copenhagen,
      '2026-04-03T07:00:00.000Z',
    ],
    [
      'Copenhagen, none between',
      '2026-03-02T13:00:00Z',
      { weeks: 2 },
      copenhagen,
      '2026-03-16T08:00:00.000Z',
    ],
    [
      'Copenhagen, back between',
      '2026-10-20T13:00:00Z',
      { weeks: 2 },
      copenhagen,
      '2026-11-03T08:00:00.000Z',
    ],
    [
      'Copenhagen, on the day of 23 hours',
      '2026-03-26T13:00:00Z',
      { days: 3 },
      copenhagen,
      '2026-03-29T07:00:00.000Z',
    ],
    [
      'Copenhagen, on the day of 25 hours',
      '2026-10-22T13:00:00Z',
      { days: 3 },
      copenhagen,
      '2026-10-25T08:00:00.000Z',
    ],
    ['Denver, forward between', '2026-03-05T20:00:00Z', { days: 3 }, denver, '2026-03-08T15:00:00.000Z'],
    ['Denver, back between', '2026-10-30T20:00:00Z', { weeks: 2 }, denver, '2026-11-13T16:00:00.000Z'],
    [
      'Denver, evening there, next day in UTC',
      '2026-06-02T03:30:00Z',
      { days: 3 },
      denver,
      '2026-06-04T15:00:00.000Z',
    ],
    ['Sydney, back between', '2026-03-24T22:30:00Z', { weeks: 2 }, sydney, '2026-04-07T23:00:00.000Z'],
    ['Sydney, forward between', '2026-09-25T01:00:00Z', { weeks: 2 }, sydney, '2026-10-08T22:00:00.000Z'],
    [
      'Sydney, both changes between',
      '2026-03-30T01:00:00Z',
      { months: 7 },
      sydney,
      '2026-10-29T22:00:00.000Z',
    ],
    [
      'six months from the last of August',
      '2026-08-31T10:00:00Z',
      { months: 6 },
      copenhagen,
      '2027-02-28T08:00:00.000Z',
    ],
    ['… into a leap year', '2027-08-31T10:00:00Z', { months: 6 }, copenhagen, '2028-02-29T08:00:00.000Z'],
    ['a month from 31 January', '2026-01-31T18:00:00Z', { months: 1 }, denver, '2026-02-28T16:00:00.000Z'],
    [
      'six months from 30 September, not to the last',
      '2026-09-30T10:00:00Z',
      { months: 6 },
      copenhagen,
      '2027-03-30T07:00:00.000Z',
    ],
    ['weeks over a month end', '2026-01-30T10:00:00Z', { weeks: 6 }, denver, '2026-03-13T15:00:00.000Z'],
  ];
  it.each(cases)('is nine local time: %s', (_, from, after, timeZone, due) => {
    expect(dueAt(new Date(from), after, window, timeZone).toISOString()).toBe(due);
  });

  it('takes, of a time the clocks leave out, the same after the change, and of one that comes twice the first', () => {
    const odd = { from: '02:30', until: '04:00' };
    expect(dueOn('2026-03-29', odd, copenhagen).toISOString()).toBe('2026-03-29T01:30:00.000Z');
    expect(dueOn('2026-10-25', odd, copenhagen).toISOString()).toBe('2026-10-25T00:30:00.000Z');
  });

  it('always shows the window’s opening on the wall, on the day the calendar says', () => {
    fc.assert(
      fc.property(
        fc.date({ min: new Date('2020-01-01'), max: new Date('2035-01-01'), noInvalidDate: true }),
        fc.integer({ min: 1, max: 400 }),
        fc.constantFrom(copenhagen, sydney, denver),
        (from, days, timeZone) => {
          const due = dueAt(from, { days }, window, timeZone);
          const wall = Temporal.Instant.fromEpochMilliseconds(due.getTime()).toZonedDateTimeISO(timeZone);
          expect([wall.hour, wall.minute, daysBetween(from, due, timeZone)]).toEqual([9, 0, days]);
        },
      ),
    );
  });
});

describe('inWindow', () => {
  it.each([
    ['before it opens', '2026-05-04T05:00:00Z', '2026-05-04T07:00:00.000Z'],
    ['as it opens', '2026-05-04T07:00:00Z', '2026-05-04T07:00:00.000Z'],
    ['within', '2026-05-04T12:34:00Z', '2026-05-04T12:34:00.000Z'],
    ['as it closes', '2026-05-04T17:00:00Z', '2026-05-05T07:00:00.000Z'],
    ['the night of a clock change', '2026-03-28T22:00:00Z', '2026-03-29T07:00:00.000Z'],
  ])('waits for the window: %s', (_, instant, then) => {
    expect(inWindow(new Date(instant), window, copenhagen).toISOString()).toBe(then);
  });
});

it('says how long ago in words', () => {
  expect([1, 3, 13, 14, 42, 60, 61, 92, 181, 184].map(timeSince)).toEqual([
    '1 day',
    '3 days',
    '13 days',
    '2 weeks',
    '6 weeks',
    '9 weeks',
    '2 months',
    '3 months',
    '6 months',
    '6 months',
  ]);
});
