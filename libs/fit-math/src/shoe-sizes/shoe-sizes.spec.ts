import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { FitMathError, footLengthOfSize, sizesOfFoot, sizeSystems } from '../index.js';

describe('shoe sizes', () => {
  it('lead there and back in every system', () => {
    fc.assert(
      fc.property(fc.double({ min: 180, max: 340, noNaN: true }), (footLengthMm) => {
        for (const { system, exact } of sizesOfFoot(footLengthMm)) {
          expect(Math.abs(footLengthOfSize(system, clamp(exact, system)) - footLengthMm)).toBeLessThan(1e-6);
        }
      }),
    );
  });

  it('are marked in halves, and in fives of millimetres', () => {
    const marked = Object.fromEntries(sizesOfFoot(262).map(({ system, marked: size }) => [system, size]));
    expect(marked).toEqual({ mondopoint: 260, centimetre: 26, eu: 41.5, uk: 8, us_men: 9, us_women: 10 });
  });

  it.each(sizeSystems)('refuse a size of %s that is for no foot', (system) => {
    expect(() => footLengthOfSize(system, 500)).toThrow(FitMathError);
    expect(() => footLengthOfSize(system, Number.NaN)).toThrow(/^size: from /);
  });

  it('refuse a foot that is none', () => {
    expect(() => sizesOfFoot(26)).toThrow(/^footLengthMm: /);
  });
});

/** Rounding may put the ends of the range a hair outside it. */
const clamp = (size: number, system: (typeof sizeSystems)[number]): number => {
  const [least, greatest] = [180, 340].map(
    (mm) => sizesOfFoot(mm).find((item) => item.system === system)?.exact,
  );
  return Math.min(Math.max(size, (least ?? 0) + 1e-9), (greatest ?? 0) - 1e-9);
};
