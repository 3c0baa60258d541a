import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { judgeChange, neededChange } from './judge-change.js';
import { outcomeMeasures, type OutcomeMeasure } from './outcome-measures.js';

const { pain, comfort, chosen_activities: chosenActivities, power_20_min_w: power } = outcomeMeasures;
const all: readonly OutcomeMeasure[] = Object.values(outcomeMeasures);

describe('judgeChange', () => {
  it.each([
    [pain, 5, 3, 'better'],
    [pain, 5, 4, 'no real change'],
    [pain, 8, 6, 'no real change'],
    [pain, 8, 5, 'better'],
    [pain, 8, 10, 'worse'],
    [pain, 0, 2, 'worse'],
    [pain, 0, 0, 'no real change'],
    [comfort, 50, 61, 'better'],
    [comfort, 50, 60, 'no real change'],
    [comfort, 50, 39, 'worse'],
    [chosenActivities, 4, 5.5, 'no real change'],
    [chosenActivities, 4, 6, 'better'],
    [power, 250, 265, 'no real change'],
    [power, 250, 271, 'better'],
    [power, 250, 229, 'worse'],
  ] as const)('%# from %d to %d', (measure, before, after, verdict) => {
    expect(judgeChange(measure, before, after)).toBe(verdict);
  });

  it('cannot tell without both answers: silence is not reassurance', () => {
    for (const measure of all) {
      expect(judgeChange(measure, null, 0)).toBe('cannot tell');
      expect(judgeChange(measure, 0, null)).toBe('cannot tell');
    }
  });

  it('cannot tell by a measure without any threshold', () => {
    expect(judgeChange({ ...comfort, important: null }, 10, 90)).toBe('cannot tell');
  });

  it('refuses what is not on the scale', () => {
    expect(() => judgeChange(pain, 11, 3)).toThrow(RangeError);
    expect(() => judgeChange(comfort, 50, -1)).toThrow(RangeError);
    expect(() => judgeChange(power, NaN, 250)).toThrow(RangeError);
  });

  it('never calls a larger gain less than a smaller one', () => {
    const rank = { worse: 0, 'no real change': 1, better: 2, 'cannot tell': NaN };
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10 }), fc.nat(10), fc.nat(10), (before, a, b) => {
        const [lower, higher] = [Math.min(a, b), Math.max(a, b)];
        expect(rank[judgeChange(pain, before, lower)]).toBeGreaterThanOrEqual(
          rank[judgeChange(pain, before, higher)],
        );
      }),
    );
  });
});

describe('neededChange', () => {
  it('takes the larger of points and share for getting better, the points for getting worse', () => {
    const { important, detectable } = outcomeMeasures.pain;
    expect(neededChange(important, 10, true)).toBe(3);
    expect(neededChange(important, 4, true)).toBe(2);
    expect(neededChange(important, 10, false)).toBe(2);
    expect(neededChange(detectable, 10, true)).toBe(2);
    expect(neededChange(outcomeMeasures.power_20_min_w.detectable, 250, false)).toBe(20);
  });
});

describe('outcomeMeasures', () => {
  it('name a source for every threshold, and a size', () => {
    for (const { detectable, important } of all) {
      for (const threshold of [detectable, important]) {
        if (threshold === null) continue;
        expect(threshold.source).toMatch(/\d{4}|House rule/);
        expect(threshold.points ?? threshold.shareOfBefore).toBeGreaterThan(0);
      }
    }
  });
});
