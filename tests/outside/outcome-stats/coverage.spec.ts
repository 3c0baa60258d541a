import { describe, expect, it } from '@jest/globals';
import {
  equivalence,
  groupDifference,
  hodgesLehmann,
  holm,
  limitsOfAgreement,
  meanInterval,
  nonInferiority,
  nonInferiorityOfShare,
  pairedEstimate,
  pairedMeanChange,
  summariseChanges,
  tTest,
  typicalError,
  wilcoxonSignedRank,
  wilsonInterval,
  type Interval,
  type Pair,
} from '@studio/outcome-stats';
import { normalFrom, seededRandom } from './seeded-random.js';

// Intervals must cover the truth, and verdicts err, as often as they say: known truths, drawn again and again.
// OUTCOME_STATS_DRAWS asks for more draws than the 2,000 of every run.
const draws = Number(process.env['OUTCOME_STATS_DRAWS'] ?? 2_000);
/** ±2 points, or less when more draws leave less to chance: four standard errors of a share near 5 %. */
const tolerance = Math.min(0.02, 4 * Math.sqrt((0.05 * 0.95) / draws) + 0.002);

const random = seededRandom(8);
const normal = normalFrom(random);

const share = (holds: () => boolean): number => {
  let count = 0;
  for (let i = 0; i < draws; i += 1) if (holds()) count += 1;
  return count / draws;
};
const near = (found: number, stated: number): void => {
  expect(Math.abs(found - stated)).toBeLessThanOrEqual(tolerance);
};
const covers = (interval: Interval | null | undefined, truth: number): boolean => {
  if (!interval) throw new Error('an interval was expected');
  return interval.low <= truth && truth <= interval.high;
};
const drawn = (n: number, mean: number, spread: number): Pair[] =>
  Array.from({ length: n }, () => {
    const before = 280 + 40 * normal();
    return { before, after: before + mean + spread * normal() };
  });

describe(`over ${draws} draws with a known truth`, () => {
  it.each([2, 6, 14, 60])(
    'the t interval of the mean change of %d people covers it 95 %% of the time',
    (n) => {
      near(
        share(() => covers(pairedMeanChange(drawn(n, -3, 9), 0).interval95, -3)),
        0.95,
      );
    },
  );

  it('an interval at another level covers at that level', () => {
    near(
      share(() => covers(meanInterval(pairedEstimate(summariseChanges(drawn(9, 4, 9), 0)), 0.9), 4)),
      0.9,
    );
  });

  it.each([6, 8, 13, 20, 80])(
    'the Hodges–Lehmann interval of %d people covers at its achieved level',
    (n) => {
      const stated = hodgesLehmann(drawn(n, 1, 9), 0).achievedLevel ?? NaN;
      expect(stated).toBeGreaterThanOrEqual(0.95);
      near(
        share(() => covers(hodgesLehmann(drawn(n, 1, 9), 0).interval95, 1)),
        stated,
      );
    },
  );

  it('the score interval covers 95 % of the time, averaged over shares (one share alone may lie 2 points off)', () => {
    near(
      share(() => {
        const truth = random();
        let count = 0;
        for (let i = 0; i < 25; i += 1) if (random() < truth) count += 1;
        return covers(wilsonInterval(count, 25, false), truth);
      }),
      0.95,
    );
  });

  it.each([2, 6, 17, 60])(
    'bias and both limits of agreement of %d pairs are covered 95 %% of the time',
    (n) => {
      const hits = { bias: 0, lower: 0, upper: 0 };
      for (let i = 0; i < draws; i += 1) {
        const found = limitsOfAgreement(summariseChanges(drawn(n, 2, 5), 0));
        if (covers(found.biasInterval95, 2)) hits.bias += 1;
        if (covers(found.limits?.lower.interval95, 2 - 1.959964 * 5)) hits.lower += 1;
        if (covers(found.limits?.upper.interval95, 2 + 1.959964 * 5)) hits.upper += 1;
      }
      for (const count of Object.values(hits)) near(count / draws, 0.95);
    },
  );

  it('the typical error of 8 people measured twice is covered 95 % of the time', () => {
    near(
      share(() => covers(typicalError(summariseChanges(drawn(8, 0, 6 * Math.SQRT2), 0)).interval95, 6)),
      0.95,
    );
  });

  it('t and signed rank tests find a change that is not there 5 % of the time, the exact one no more', () => {
    near(
      share(() => (tTest(pairedEstimate(summariseChanges(drawn(12, 0, 9), 0)), 0).pTwoSided ?? 1) < 0.05),
      0.05,
    );
    const found = share(() => (wilcoxonSignedRank(drawn(12, 0, 9), 0).pTwoSided ?? 1) < 0.05);
    expect(found).toBeLessThanOrEqual(0.05 + tolerance);
    expect(found).toBeGreaterThan(0.02);
  });

  it('Welch’s difference of unlike groups covers 95 % of the time', () => {
    near(
      share(() => {
        const first = summariseChanges(drawn(8, 3, 2), 0);
        const second = summariseChanges(drawn(20, 1, 9), 0);
        return covers(meanInterval(groupDifference(first, second, 'unequal'), 0.95), 2);
      }),
      0.95,
    );
  });

  it('“not worse” is said of a loss right at the margin 5 % of the time, in watts and as a share', () => {
    near(
      share(
        () =>
          nonInferiority(pairedEstimate(summariseChanges(drawn(15, -6, 8), 0)), 6).verdict === 'not worse',
      ),
      0.05,
    );
    // Everybody loses 2 % of what they had, give or take.
    near(
      share(() => {
        const pairs = drawn(15, 0, 8).map(({ before, after }) => ({ before, after: after - 0.02 * before }));
        return nonInferiorityOfShare(pairs, 0, 0.02).verdict === 'not worse';
      }),
      0.05,
    );
  });

  it('“equivalent” is said of a change right at a bound no more than 5 % of the time', () => {
    const bounds = { low: -6, high: 6 };
    const found = share(
      () =>
        equivalence(pairedEstimate(summariseChanges(drawn(15, 6, 5), 0)), bounds).verdict === 'equivalent',
    );
    near(found, 0.05);
  });

  it('of five questions without a change, Holm lets one through at all 5 % of the time or less', () => {
    const found = share(() =>
      holm(
        Array.from({ length: 5 }, () => ({ question: 'any', p: random() })),
        0,
      ).questions.some(({ correctedP }) => correctedP < 0.05),
    );
    near(found, 0.05);
  });
});
