import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { segmentsFromHeights, segmentsFromStature, statureTables, type LandmarkHeights } from '../index.js';

const heights: LandmarkHeights = {
  trochanterHeightMm: 900,
  kneeHeightMm: 490,
  malleolusHeightMm: 73,
  ankleFromHeelMm: 75,
  cleatFromHeelMm: 210,
  underFootMm: 42,
};
const lengths = ['thighMm', 'shankMm', 'footLeverMm', 'ankleAboveSpindleMm'] as const;

describe('segmentsFromHeights', () => {
  it('takes the differences, and adds their errors as squares', () => {
    const found = segmentsFromHeights(heights);
    expect(found.thighMm).toEqual({ value: 410, sd: Math.hypot(8, 5) });
    expect(found.shankMm).toEqual({ value: 417, sd: Math.hypot(5, 3) });
    expect(found.footLeverMm).toEqual({ value: 135, sd: Math.hypot(1, 4) });
    expect(found.ankleAboveSpindleMm).toEqual({ value: 115, sd: Math.hypot(3, 2) });
    expect(found.origin).toBe('measured');
  });

  it('takes one’s own errors in place of the usual ones', () => {
    const none = { ...heights };
    for (const name of Object.keys(none) as (keyof LandmarkHeights)[]) Object.assign(none, { [name]: 0 });
    for (const name of lengths) expect(segmentsFromHeights(heights, none)[name].sd).toBe(0);
  });

  it.each([
    ['trochanterHeightMm', { trochanterHeightMm: 90 }],
    ['kneeHeightMm', { kneeHeightMm: Number.NaN }],
    ['underFootMm', { underFootMm: -1 }],
    ['thighMm', { trochanterHeightMm: 600, kneeHeightMm: 550 }],
  ])('names an impossible %s', (field, change) => {
    expect(() => segmentsFromHeights({ ...heights, ...change })).toThrow(expect.objectContaining({ field }));
  });

  it('names an impossible error', () => {
    expect(() => segmentsFromHeights(heights, { ...heights })).toThrow(
      expect.objectContaining({ field: 'errors.trochanterHeightMm' }),
    );
  });
});

describe('segmentsFromStature', () => {
  it('is marked a fall-back and less sure than the tape', () => {
    const guessed = segmentsFromStature({ statureMm: 1750, table: 'landmark-survey', underFootMm: 42 });
    expect(guessed.origin).toBe('stature');
    expect(guessed.cautions.map(({ code }) => code)).toEqual(['from-stature']);
    const measured = segmentsFromHeights(heights);
    for (const name of ['thighMm', 'shankMm'] as const) {
      expect(guessed[name].sd).toBeGreaterThan(1.5 * measured[name].sd);
    }
  });

  it('holds the other table within its error, whichever is asked', () => {
    for (const { id } of statureTables) {
      const asked = segmentsFromStature({ statureMm: 1750, table: id, underFootMm: 42 });
      for (const { id: otherId } of statureTables) {
        const other = segmentsFromStature({ statureMm: 1750, table: otherId, underFootMm: 42 });
        for (const name of lengths) {
          expect(Math.abs(asked[name].value - other[name].value)).toBeLessThanOrEqual(asked[name].sd);
        }
      }
    }
  });

  it('grows with stature in proportion, what lies under the foot aside', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1200, max: 2000, noNaN: true }),
        fc.constantFrom(...statureTables.map(({ id }) => id)),
        (statureMm, table) => {
          const short = segmentsFromStature({ statureMm, table, underFootMm: 0 });
          const tall = segmentsFromStature({ statureMm: 1.1 * statureMm, table, underFootMm: 0 });
          for (const name of lengths) {
            expect(tall[name].value / short[name].value).toBeCloseTo(1.1, 10);
            expect(tall[name].sd / short[name].sd).toBeCloseTo(1.1, 10);
          }
        },
      ),
    );
  });

  it.each([
    ['statureMm', { statureMm: 175 }],
    ['underFootMm', { underFootMm: Number.NaN }],
  ])('names an impossible %s', (field, change) => {
    const input = { statureMm: 1750, table: 'drillis-contini', underFootMm: 42 } as const;
    expect(() => segmentsFromStature({ ...input, ...change })).toThrow(expect.objectContaining({ field }));
  });
});
