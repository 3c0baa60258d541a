import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { FitMathError } from '../errors.js';
import { compareSaddleHeights } from './compare-saddle-heights.js';

describe('compareSaddleHeights', () => {
  it('leaves a rule out, with what it lacks, and never guesses an input', () => {
    const { rows, leftOut } = compareSaddleHeights({ inseamMm: 850 }, 172.5);
    expect(rows.map(({ rule }) => rule)).toEqual(['inseam-0.883', 'inseam-1.09']);
    expect(leftOut).toEqual([
      { rule: 'inseam-and-knee-flexion', missing: ['dynamicKneeFlexionDeg'] },
      { rule: 'trochanter-1.00', missing: ['trochanterHeightMm'] },
      { rule: 'stature-regression', missing: ['statureMm'] },
    ]);
  });

  it('carries the error of measuring through by the slope of each rule', () => {
    const { rows } = compareSaddleHeights({ inseamMm: 850, trochanterHeightMm: 900 }, 172.5);
    expect(rows.map(({ saddleHeightMm }) => saddleHeightMm.sd)).toEqual([
      expect.closeTo(0.883 * 6, 6),
      expect.closeTo(1.09 * 6, 6),
      expect.closeTo(8, 6),
    ]);
  });

  it('names a wrong input, and says when nothing was given', () => {
    const codeOf = (run: () => unknown): unknown => {
      try {
        return run();
      } catch (error) {
        return error instanceof FitMathError ? [error.code, error.field] : error;
      }
    };
    expect(codeOf(() => compareSaddleHeights({ inseamMm: 85 }, 170))).toEqual([
      'input.out-of-range',
      'inseamMm',
    ]);
    expect(codeOf(() => compareSaddleHeights({ inseamMm: Number.NaN }, 170))).toEqual([
      'input.not-a-number',
      'inseamMm',
    ]);
    expect(codeOf(() => compareSaddleHeights({ dynamicKneeFlexionDeg: 35 }, 170))).toEqual([
      'input.not-a-number',
      'inputs',
    ]);
  });

  it('takes a longer crank off spindle rules only, and lets no NaN out', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 400, max: 1200, noNaN: true }),
        fc.double({ min: 20, max: 60, noNaN: true }),
        fc.double({ min: 80, max: 240, noNaN: true }),
        (inseamMm, dynamicKneeFlexionDeg, crank) => {
          const short = compareSaddleHeights({ inseamMm, dynamicKneeFlexionDeg }, crank);
          const long = compareSaddleHeights({ inseamMm, dynamicKneeFlexionDeg }, crank + 10);
          short.rows.forEach((row, index) => {
            const longer = long.rows[index]?.saddleHeightMm.value ?? Number.NaN;
            const moved = row.publishedDatum === 'pedal-spindle' ? -10 : 0;
            expect(longer - row.saddleHeightMm.value).toBeCloseTo(moved, 8);
            expect(Number.isFinite(row.saddleHeightMm.sd)).toBe(true);
          });
        },
      ),
    );
  });
});
