import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { hodgesLehmann } from './hodges-lehmann.js';
import type { Pair } from './pair.js';
import { signedRankDistribution } from './signed-rank-distribution.js';
import { midranks } from './signed-ranks.js';
import { kthWalshAverage } from './walsh-average.js';
import { wilcoxonSignedRank } from './wilcoxon-signed-rank.js';

const asPairs = (changes: readonly number[]): Pair[] => changes.map((after) => ({ before: 0, after }));
/** Whole numbers: ties and zeros are common, as among answers on a scale. */
const answers = (minLength: number, maxLength: number) =>
  fc.array(fc.integer({ min: -5, max: 5 }), { minLength, maxLength });

describe('midranks', () => {
  it('share the mean rank among equals', () => {
    expect(midranks([3, 1, 3, 2])).toEqual([3.5, 1, 3.5, 2]);
  });
});

describe('wilcoxonSignedRank', () => {
  it('counts every sign pattern of the ranks, ties included', () => {
    fc.assert(
      fc.property(answers(6, 11), (changes) => {
        const changed = changes.filter((change) => change !== 0);
        const ranks = midranks(changed.map(Math.abs));
        const observed = ranks.reduce((sum, rank, i) => sum + ((changed[i] ?? 0) > 0 ? rank : 0), 0);
        let atLeast = 0;
        for (let signs = 0; signs < 2 ** ranks.length; signs += 1) {
          const sum = ranks.reduce((total, rank, i) => total + (signs & (1 << i) ? rank : 0), 0);
          if (sum >= observed) atLeast += 1;
        }
        const found = wilcoxonSignedRank(asPairs(changes), 0);
        expect(found.rankSum).toBe(observed);
        expect(found.pGreater).toBeCloseTo(atLeast / 2 ** ranks.length, 12);
      }),
    );
  });

  it('mirrors: with all signs turned, more becomes less', () => {
    fc.assert(
      fc.property(answers(6, 70), (changes) => {
        const found = wilcoxonSignedRank(asPairs(changes), 0);
        const turned = wilcoxonSignedRank(asPairs(changes.map((change) => -change)), 0);
        expect(turned.pLess).toBeCloseTo(found.pGreater ?? NaN, 12);
        expect(turned.pTwoSided).toBeCloseTo(found.pTwoSided ?? NaN, 12);
      }),
    );
  });

  it('approximates from 51 changed people on, and hardly differs from the exact p there', () => {
    const changes = Array.from({ length: 51 }, (_, i) => (i % 3 === 0 ? -1 : 1) * (i + 1));
    const ranks = changes.map(Math.abs);
    const rankSum = changes.filter((change) => change > 0).reduce((sum, rank) => sum + rank, 0);
    expect(wilcoxonSignedRank(asPairs(changes.slice(0, 50)), 0).method).toBe('Wilcoxon signed rank, exact');
    const approximate = wilcoxonSignedRank(asPairs(changes), 0);
    expect(approximate.method).toContain('normal approximation');
    const exact = signedRankDistribution(ranks)
      .subarray(2 * rankSum)
      .reduce((sum, share) => sum + share, 0);
    expect(Math.abs((approximate.pGreater ?? NaN) - exact)).toBeLessThan(0.001);
  });

  it('says 1 when nobody changed', () => {
    const found = wilcoxonSignedRank(asPairs([0, 0, 0, 0, 0, 0]), 2);
    expect(found).toMatchObject({ unchanged: 6, rankSum: 0, pTwoSided: 1, missing: 2 });
  });
});

describe('kthWalshAverage', () => {
  it('is the k-th of the averages written out', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 1, maxLength: 15 }),
        fc.nat(),
        (values, seed) => {
          const sorted = [...values].sort((a, b) => a - b);
          const averages = sorted
            .flatMap((value, i) => sorted.slice(i).map((other) => (value + other) / 2))
            .sort((a, b) => a - b);
          const k = (seed % averages.length) + 1;
          expect(kthWalshAverage(sorted, k)).toBeCloseTo(averages[k - 1] ?? NaN, 12);
        },
      ),
    );
  });
});

describe('hodgesLehmann', () => {
  it('moves with the data, and its interval with it', () => {
    fc.assert(
      fc.property(answers(6, 60), fc.integer({ min: -20, max: 20 }), (changes, shift) => {
        const found = hodgesLehmann(asPairs(changes), 0);
        const moved = hodgesLehmann(asPairs(changes.map((change) => change + shift)), 0);
        expect(moved.medianChange).toBeCloseTo((found.medianChange ?? NaN) + shift, 9);
        expect(moved.interval95?.low).toBeCloseTo((found.interval95?.low ?? NaN) + shift, 9);
        expect(moved.interval95?.high).toBeCloseTo((found.interval95?.high ?? NaN) + shift, 9);
        expect(found.interval95?.low).toBeLessThanOrEqual(found.medianChange ?? NaN);
        expect(found.interval95?.high).toBeGreaterThanOrEqual(found.medianChange ?? NaN);
      }),
    );
  });

  it('is not pulled along by one outlier', () => {
    const changes = [-2, -2, -3, -1, -2, -2, 90];
    expect(hodgesLehmann(asPairs(changes), 0).medianChange).toBe(-2);
  });

  it('gives no interval to five people, and says so', () => {
    const found = hodgesLehmann(asPairs([1, 2, 3, 4, 5]), 1);
    expect(found).toMatchObject({ n: 5, medianChange: 3, interval95: null, achievedLevel: null });
    expect(found.sentence).toBe(
      'In 5 people the typical change was 3.0; too few for a 95 % interval (1 missing).',
    );
  });

  it('stays quick with twenty thousand people', () => {
    const changes = Array.from({ length: 20_000 }, (_, i) => Math.sin(i) * 10);
    const started = performance.now();
    expect(hodgesLehmann(asPairs(changes), 0).interval95).not.toBeNull();
    expect(performance.now() - started).toBeLessThan(1000);
  });
});
