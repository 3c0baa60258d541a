import { describe, expect, it } from '@jest/globals';
import { wishFits } from './wish-fits.js';

describe('a free time', () => {
  // 2026-03-02 is a Monday (ISO 8601: weekday 1), 2026-03-08 a Sunday.
  it.each([
    ['2026-03-02T10:00:00+01:00[Europe/Copenhagen]', [1], [], true],
    ['2026-03-02T10:00:00+01:00[Europe/Copenhagen]', [2, 7], [], false],
    ['2026-03-08T10:00:00+01:00[Europe/Copenhagen]', [7], [], true],
    ['2026-03-02T10:00:00+01:00[Europe/Copenhagen]', [1], [{ from: '10:00', until: '12:00' }], true],
    ['2026-03-02T12:00:00+01:00[Europe/Copenhagen]', [1], [{ from: '10:00', until: '12:00' }], false],
    [
      '2026-03-02T17:30:00+01:00[Europe/Copenhagen]',
      [1],
      [
        { from: '08:00', until: '10:00' },
        { from: '17:00', until: '24:00' },
      ],
      true,
    ],
  ])('at %s, wished for on %j at %j: %s', (localStart, weekdays, times, fits) => {
    expect(wishFits({ localStart }, { weekdays, times })).toBe(fits);
  });
});
