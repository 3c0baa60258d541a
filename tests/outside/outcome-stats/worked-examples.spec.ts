import { describe, expect, it } from '@jest/globals';
import {
  approximateSignedRankP,
  equivalence,
  fewestForVerdict,
  groupDifference,
  hodgesLehmann,
  holm,
  limitsOfAgreement,
  meanInterval,
  nonInferiority,
  noncentralTQuantile,
  pairedEstimate,
  pairedMeanChange,
  repeatability,
  responders,
  signedRanks,
  summariseChanges,
  tTest,
  typicalError,
  wilcoxonSignedRank,
  wilsonInterval,
  type Estimate,
  type Pair,
} from '@studio/outcome-stats';

const pairsOf = (before: readonly number[], after: readonly number[]): Pair[] =>
  before.map((value, i) => ({ before: value, after: after[i] ?? NaN }));

const within = (found: number | null | undefined, expected: number, tolerance: number): void => {
  expect(Math.abs((found ?? NaN) - expected)).toBeLessThanOrEqual(tolerance);
};

const summary = (n: number, mean: number, standardDeviation: number) => ({
  n,
  missing: 0,
  mean,
  standardDeviation,
});

/** By the large-sample approximation, which the library itself uses for larger groups only. */
const approximatePOf = (changes: readonly number[], continuityCorrection: boolean) => {
  const { ranks, rankSum } = signedRanks(changes.filter((change) => change !== 0));
  return { rankSum, ...approximateSignedRankP(ranks, rankSum, continuityCorrection) };
};

describe('hours of sleep gained: Student 1908, Biometrika 6:1–25; Cushny & Peebles 1905, J Physiol 32:501–510', () => {
  const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
  const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
  const firstMinusSecond = pairsOf(second, first);

  it('paired t: −4.0621, 9 degrees of freedom, p = 0.002833 (help page of the data set in R)', () => {
    const test = tTest(pairedEstimate(summariseChanges(firstMinusSecond, 0)), 0);
    within(test.t, -4.0621277, 5e-8);
    expect(test.degreesOfFreedom).toBe(9);
    within(test.pTwoSided, 0.00283289, 5e-9);
  });

  it('mean −1.58, 95 % interval −2.4598858 to −0.7001142, standard deviation 1.2299955, error 0.3889587 (R 4.2.2)', () => {
    const change = pairedMeanChange(firstMinusSecond, 0);
    within(change.meanChange, -1.58, 1e-12);
    within(change.interval95?.low, -2.4598858, 1e-7);
    within(change.interval95?.high, -0.7001142, 1e-7);
    const moments = summariseChanges(firstMinusSecond, 0);
    within(moments.standardDeviation, 1.2299955, 5e-8);
    within(pairedEstimate(moments).standardError, 0.3889587, 5e-8);
  });

  it('not equivalent within ±0.5: t −2.77664 and −5.34761, p 0.98924 and 0.000232 (R 4.2.2)', () => {
    const found = equivalence(pairedEstimate(summariseChanges(firstMinusSecond, 0)), {
      low: -0.5,
      high: 0.5,
    });
    within(found.aboveLower?.t, -2.77664, 5e-6);
    within(found.aboveLower?.p, 0.98924, 5e-6);
    within(found.belowUpper?.t, -5.34761, 5e-6);
    within(found.belowUpper?.p, 0.000232, 5e-7);
    within(found.interval90?.low, -2.29301, 5e-6);
    within(found.interval90?.high, -0.86699, 5e-6);
    expect(found.verdict).toBe('not shown');
  });

  it('signed ranks with one zero and ties, normal approximation: V = 0, p = 0.009091 (R 4.2.2 and SciPy)', () => {
    const changes = firstMinusSecond.map(({ before, after }) => after - before);
    const { rankSum, pTwoSided } = approximatePOf(changes, true);
    expect(rankSum).toBe(0);
    within(pTwoSided, 0.009091, 5e-7);
  });

  it('exact: nine changed, all one way, so p = 2 / 2⁹ (derived)', () => {
    const found = wilcoxonSignedRank(firstMinusSecond, 0);
    expect(found.unchanged).toBe(1);
    within(found.pTwoSided, 2 / 512, 1e-15);
  });

  it('Hodges–Lehmann of second minus first: 1.3 with the zero, 1.4 without (derived: 55 and 45 Walsh averages)', () => {
    const pairs = pairsOf(first, second);
    within(hodgesLehmann(pairs, 0).medianChange, 1.3, 1e-12);
    within(
      hodgesLehmann(
        pairs.filter(({ before, after }) => before !== after),
        0,
      ).medianChange,
      1.4,
      1e-12,
    );
  });

  it('8 of 10 gained an hour: 0.4902 to 0.9433 (derived)', () => {
    // 0.1 + 1 is a little more than 1.1: compare in tenths.
    const gained = pairsOf(first, second).filter(
      ({ before, after }) => Math.round(10 * (after - before)) >= 10,
    );
    const found = responders(gained.length, first.length, 0);
    expect(found.responded).toBe(8);
    within(found.ofAnswered?.interval95.low, 0.4902, 5e-5);
    within(found.ofAnswered?.interval95.high, 0.9433, 5e-5);
  });
});

describe('Hamilton depression factor: Hollander & Wolfe, Nonparametric Statistical Methods, example 3.1', () => {
  const before = [1.83, 0.5, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.3];
  const after = [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29];
  const beforeMinusAfter = pairsOf(after, before);

  it('exact signed ranks: V = 40, p = 0.01953 one-sided, 0.0390625 two-sided (data: R package NSM3; R 4.2.2)', () => {
    const found = wilcoxonSignedRank(beforeMinusAfter, 0);
    expect(found.method).toBe('Wilcoxon signed rank, exact');
    expect(found.rankSum).toBe(40);
    within(found.pGreater, 10 / 512, 1e-15);
    within(found.pTwoSided, 0.0390625, 1e-15);
  });

  it('normal approximation without continuity correction: p = 0.038152 (R 4.2.2)', () => {
    const changes = beforeMinusAfter.map((pair) => pair.after - pair.before);
    within(approximatePOf(changes, false).pTwoSided, 0.038152, 5e-7);
  });

  it('Hodges–Lehmann 0.46, exact interval 0.010 to 0.786, covering about 96.1 % (R 4.2.2)', () => {
    const found = hodgesLehmann(beforeMinusAfter, 0);
    within(found.medianChange, 0.46, 1e-12);
    within(found.interval95?.low, 0.01, 1e-12);
    within(found.interval95?.high, 0.786, 1e-12);
    within(found.achievedLevel, 0.961, 0.0005);
  });

  it('paired t: 3.0354, 8 degrees of freedom, p = 0.016177; mean 0.43189, 0.10378 to 0.76000 (SciPy)', () => {
    const estimate = pairedEstimate(summariseChanges(beforeMinusAfter, 0));
    const test = tTest(estimate, 0);
    within(test.t, 3.0354, 5e-5);
    expect(test.degreesOfFreedom).toBe(8);
    within(test.pTwoSided, 0.016177, 5e-7);
    within(estimate.value, 0.43189, 5e-6);
    const interval = meanInterval(estimate, 0.95);
    within(interval?.low, 0.10378, 5e-6);
    within(interval?.high, 0.76, 5e-6);
  });
});

describe('score interval of a share: Newcombe 1998, Stat Med 17:857–872, methods 3 and 4', () => {
  // 81/263 and 15/148 confirmed by the R package propint; 0/20 and 1/29 from memory, recomputed; 10/10 derived.
  it.each([
    [81, 263, 0.2553, 0.3662, 0.2535, 0.3682],
    [15, 148, 0.0624, 0.1605, 0.0598, 0.1644],
    [0, 20, 0, 0.1611, 0, 0.2005],
    [1, 29, 0.0061, 0.1718, 0.0018, 0.1963],
    [10, 10, 0.7225, 1, 0.6555, 1],
  ])('%d of %d: %d to %d, with continuity correction %d to %d', (count, n, low, high, lowCc, highCc) => {
    const plain = wilsonInterval(count, n, false);
    within(plain.low, low, 5e-5);
    within(plain.high, high, 5e-5);
    const corrected = wilsonInterval(count, n, true);
    within(corrected.low, lowCc, 5e-5);
    within(corrected.high, highCc, 5e-5);
  });
});

describe('equivalence, examples in the help pages of the R package TOSTER (Lakens)', () => {
  it('two groups, Moery & Calin-Jageman 2016: published t(182) = −2.69, p = .004; recomputed −2.6842 and 3.1392', () => {
    const estimate = groupDifference(summary(95, 5.25, 0.95), summary(89, 5.22, 0.83), 'equal');
    expect(estimate.degreesOfFreedom).toBe(182);
    const found = equivalence(estimate, { low: -0.384, high: 0.384 });
    within(found.belowUpper?.t, -2.69, 0.01);
    within(found.belowUpper?.t, -2.6842, 5e-5);
    within(found.belowUpper?.p, 0.00397, 5e-6);
    within(found.aboveLower?.t, 3.1392, 5e-5);
    within(found.aboveLower?.p, 0.00099, 5e-6);
    expect(found.verdict).toBe('equivalent');
  });

  it('pairs: spread 0.89029, error 0.11043; t 3.8034 and −2.3545; 90 % interval −0.1043 to 0.2643', () => {
    const spread = Math.sqrt(1.17 ** 2 + 1.3 ** 2 - 2 * 0.745 * 1.17 * 1.3);
    within(spread, 0.89029, 5e-6);
    const estimate = pairedEstimate(summary(65, 5.83 - 5.75, spread));
    within(estimate.standardError, 0.11043, 5e-6);
    const found = equivalence(estimate, { low: -0.34, high: 0.34 });
    within(found.aboveLower?.t, 3.8034, 5e-5);
    within(found.aboveLower?.p, 0.00016, 5e-6);
    within(found.belowUpper?.t, -2.3545, 5e-5);
    within(found.belowUpper?.p, 0.01081, 5e-6);
    within(found.interval90?.low, -0.1043, 5e-5);
    within(found.interval90?.high, 0.2643, 5e-5);
    expect(found.verdict).toBe('equivalent');
  });

  it('is shown exactly when the 90 % interval lies within the bounds: Schuirmann 1987, J Pharmacokinet Biopharm 15:657–680', () => {
    for (let mean = -1; mean <= 1; mean += 0.05) {
      const found = equivalence(pairedEstimate(summary(12, mean, 1)), { low: -0.7, high: 0.7 });
      const bothRejected = (found.aboveLower?.p ?? 1) < 0.05 && (found.belowUpper?.p ?? 1) < 0.05;
      expect(found.verdict === 'equivalent').toBe(bothRejected);
    }
  });
});

describe('peak flow by two meters: Bland & Altman 1986, Lancet i:307–310 (data: R package BlandAltmanLeh)', () => {
  const large = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
  const largeAgain = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421];
  const mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
  const miniAgain = [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443];
  const largeMinusMini = summariseChanges(pairsOf(mini, large), 0);

  it('bias −2.1, spread 38.8; limits −79.7 and 75.5 with 2 spreads, −78.097 and 73.862 with 1.96', () => {
    const found = limitsOfAgreement(largeMinusMini);
    within(found.bias, -2.1176, 5e-5);
    within(largeMinusMini.standardDeviation, 38.7651, 5e-5);
    within((found.bias ?? 0) - 2 * (largeMinusMini.standardDeviation ?? 0), -79.7, 0.06);
    within((found.bias ?? 0) + 2 * (largeMinusMini.standardDeviation ?? 0), 75.5, 0.1);
    // 1.96 against 1.959964 is 0.0014 here.
    within(found.limits?.lower.value, -78.097, 0.0015);
    within(found.limits?.upper.value, 73.862, 0.0015);
  });

  it('bias: error 9.4, 95 % interval −22.0 to 17.8', () => {
    within(pairedEstimate(largeMinusMini).standardError, 9.4019, 5e-5);
    const found = limitsOfAgreement(largeMinusMini);
    within(found.biasInterval95?.low, -22.049, 0.0005);
    within(found.biasInterval95?.high, 17.814, 0.0005);
  });

  it('interval of a limit: as wide as their √(3 s² / n) = 16.3 makes it within 5 %, but longer outwards', () => {
    const found = limitsOfAgreement(largeMinusMini).limits;
    const theirHalfWidth = 2.11991 * Math.sqrt((3 * 38.7651 ** 2) / 17);
    within(theirHalfWidth / 2.11991, 16.3, 0.02);
    const { low, high } = found?.upper.interval95 ?? { low: NaN, high: NaN };
    within((high - low) / (2 * theirHalfWidth), 1, 0.05);
    expect(high - (found?.upper.value ?? NaN)).toBeGreaterThan((found?.upper.value ?? NaN) - low);
  });

  it('repeatability 43.2 and 56.4 with 2, here with 1.96', () => {
    const withTwo = (coefficient: number | null): number => ((coefficient ?? NaN) * 2) / 1.959964;
    within(withTwo(repeatability(pairsOf(large, largeAgain), 0).coefficient), 43.29, 0.005);
    within(withTwo(repeatability(pairsOf(mini, miniAgain), 0).coefficient), 56.32, 0.005);
  });
});

describe('exact intervals of a limit rest on the noncentral t: quantiles over √n by R 4.2.2, qt(p, n − 1, 1.96 √n)', () => {
  it.each([
    [2, 0.522605223392, 62.557648520432],
    [3, 0.712647046148, 12.816197273025],
    [6, 0.991175757325, 5.110880137897],
    [17, 1.31502937109, 3.14827143967],
    [50, 1.55069974442, 2.53547048206],
    [200, 1.74085678917, 2.21906360162],
    [350, 1.79131781593, 2.15133998375],
  ])('n = %d: %d and %d', (n, low, high) => {
    const shift = 1.959963984540054 * Math.sqrt(n);
    within(noncentralTQuantile(0.025, n - 1, shift) / Math.sqrt(n) / low, 1, 2e-8);
    within(noncentralTQuantile(0.975, n - 1, shift) / Math.sqrt(n) / high, 1, 2e-8);
  });
});

describe('error of measuring and change', () => {
  it('squats, Weir 2005, J Strength Cond Res 19:231–240 (data from memory): error 7.557, detectable 20.95', () => {
    const first = [146, 148, 170, 90, 157, 156, 176, 205];
    const second = [140, 152, 152, 99, 145, 153, 167, 218];
    const repeats = summariseChanges(pairsOf(first, second), 0);
    within(repeats.standardDeviation, 10.687, 0.0005);
    const found = typicalError(repeats);
    within(found.typicalError, 7.557, 0.0005);
    within(found.minimalDetectableChange, 20.95, 0.005);
  });

  it('20-minute trial, MacInnis et al. 2019, Int J Sports Physiol Perform 14:38–45: error 4.6 W and +2 W give P = .41', () => {
    const repeats = summary(8, 2, 4.6 * Math.SQRT2);
    const test = tTest(pairedEstimate(repeats), 0);
    within(test.t, 0.8696, 5e-5);
    within(test.pTwoSided, 0.41, 0.005);
    within(typicalError(repeats).typicalError, 4.6, 1e-12);
    within(typicalError(repeats).minimalDetectableChange, 12.75, 0.005);
  });

  it('4-minute trial, same paper: error 8.1 W and −5 W give P = .25', () => {
    const repeats = summary(8, -5, 8.1 * Math.SQRT2);
    const test = tTest(pairedEstimate(repeats), 0);
    within(test.t, -1.2346, 5e-5);
    within(test.pTwoSided, 0.257, 0.0005);
    within(typicalError(repeats).minimalDetectableChange, 22.45, 0.005);
  });

  it('95 % of 20 minutes and critical power, Karsten et al. 2021, Front Physiol 11:613151: 7 ± 13 W, n = 17', () => {
    const differences = summary(17, 7, 13);
    const test = tTest(pairedEstimate(differences), 0);
    within(test.t, 2.2201, 5e-5);
    within(test.pTwoSided, 0.041, 0.0005);
    const { limits } = limitsOfAgreement(differences);
    within(limits?.lower.value, -19, 0.6);
    within(limits?.upper.value, 33, 0.6);
  });

  it('no 20-minute power lost beyond 2 % of 342 W in the same eight riders: bound −2.36 W (derived)', () => {
    const found = nonInferiority(pairedEstimate(summary(8, 2, 6.505)), 0.02 * 342);
    within(found.lowerBound95, -2.36, 0.005);
    expect(found.verdict).toBe('not worse');
  });

  it('one-sided bound above minus the margin decides (Penn State, online course STAT 509, lesson 6b.6)', () => {
    const estimate = pairedEstimate(summary(20, -1, 3));
    const bound = nonInferiority(estimate, 5).lowerBound95 ?? NaN;
    expect(nonInferiority(estimate, -bound + 0.001).verdict).toBe('not worse');
    expect(nonInferiority(estimate, -bound - 0.001).verdict).toBe('not shown');
  });

  it('a test-to-test variation of 2.9 % hides changes up to 8 % in one rider (derived)', () => {
    const inPercent = typicalError(summary(25, 0, 2.9 * Math.SQRT2));
    within(inPercent.minimalDetectableChange, 8.04, 0.005);
  });
});

describe('few people (derived: 2 / 2ⁿ)', () => {
  const allUp = (n: number): Pair[] => Array.from({ length: n }, (_, i) => ({ before: 0, after: i + 1 }));

  it('six, the fewest the library judges, can reach p = 0.031', () => {
    expect(fewestForVerdict).toBe(6);
    within(wilcoxonSignedRank(allUp(6), 0).pTwoSided, 2 / 64, 1e-15);
  });

  it('five, which could not go below 0.0625, get an estimate and an interval only', () => {
    const five: Estimate = pairedEstimate(summariseChanges(allUp(5), 0));
    expect(wilcoxonSignedRank(allUp(5), 0).pTwoSided).toBeNull();
    expect(tTest(five, 0).pTwoSided).toBeNull();
    expect(nonInferiority(five, 1).verdict).toBe('cannot tell');
    expect(equivalence(five, { low: -9, high: 9 }).verdict).toBe('cannot tell');
    expect(pairedMeanChange(allUp(5), 0).interval95).not.toBeNull();
  });
});

describe('several questions at once: Holm 1979, Scand J Stat 6:65–70', () => {
  it('p.adjust(c(0.01, 0.02, 0.03, 0.04, 0.05), "holm") of R 4.2.2', () => {
    const ps = [0.01, 0.02, 0.03, 0.04, 0.05];
    const found = holm(
      ps.map((p) => ({ question: String(p), p })),
      0,
    );
    const published = [0.05, 0.08, 0.09, 0.09, 0.09];
    found.questions.forEach(({ correctedP }, i) => {
      within(correctedP, published[i] ?? NaN, 1e-15);
    });
  });
});
