import { describe, expect, it } from '@jest/globals';
import { followUpInstant } from './follow-up-times.js';

describe('followUpInstant', () => {
  it.each([
    // Clocks go forward on 2026-03-29 and back on 2026-10-25 in Copenhagen (EU directive 2000/84/EC).
    ['forward between', '2026-03-20T13:00:00Z', 2, 'Europe/Copenhagen', '2026-04-03T07:00:00.000Z'],
    ['no change between', '2026-03-02T13:00:00Z', 2, 'Europe/Copenhagen', '2026-03-16T08:00:00.000Z'],
    ['back between', '2026-10-20T13:00:00Z', 2, 'Europe/Copenhagen', '2026-11-03T08:00:00.000Z'],
    // Sydney goes back on 2026-04-05, and is a day ahead of UTC in the evening.
    [
      'southern, local date ahead of UTC',
      '2026-03-24T22:30:00Z',
      2,
      'Australia/Sydney',
      '2026-04-07T23:00:00.000Z',
    ],
    ['over a month end', '2026-01-30T10:00:00Z', 6, 'America/Denver', '2026-03-13T15:00:00.000Z'],
  ])('is nine local time, clocks going %s', (_, session, weeks, zone, due) => {
    expect(followUpInstant(new Date(session), weeks, zone).toISOString()).toBe(due);
  });
});
