import { describe, expect, it } from '@jest/globals';
import { summariseChanges } from './change-summary.js';
import { equivalence } from './equivalence.js';
import { pairedEstimate } from './estimate.js';
import { groupDifference } from './group-difference.js';
import { hodgesLehmann } from './hodges-lehmann.js';
import { holm } from './holm.js';
import { jointIntervalLevel } from './joint-interval-level.js';
import { limitsOfAgreement } from './limits-of-agreement.js';
import { meanInterval } from './mean-interval.js';
import { missingAnswersSensitivity } from './missing-answers-sensitivity.js';
import { nonInferiorityOfShare } from './non-inferiority-of-share.js';
import { nonInferiority } from './non-inferiority.js';
import type { Pair } from './pair.js';
import { pairedMeanChange } from './paired-mean-change.js';
import { repeatability } from './repeatability.js';
import { responders } from './responders.js';
import { tTest } from './t-test.js';
import { typicalError } from './typical-error.js';
import { wilcoxonSignedRank } from './wilcoxon-signed-rank.js';

const fallen: readonly Pair[] = [5, 6, 7, 4, 6, 8, 5, 7].map((before, i) => ({
  before,
  after: before - 2 - (i % 3),
}));
const summary = summariseChanges(fallen, 3);
const estimate = pairedEstimate(summary);

describe('every finding', () => {
  const scale = { low: 0, high: 10 };
  const unanswered = [1, 2, 3].map(() => ({ before: 5, lastKnown: null }));
  it.each([
    ['pairedMeanChange', pairedMeanChange(fallen, 3)],
    ['tTest', tTest(estimate, 0)],
    ['wilcoxonSignedRank', wilcoxonSignedRank(fallen, 3)],
    ['hodgesLehmann', hodgesLehmann(fallen, 3)],
    ['responders', responders(6, 8, 3)],
    ['nonInferiority', nonInferiority(estimate, 1)],
    ['nonInferiorityOfShare', nonInferiorityOfShare(fallen, 3, 0.02)],
    ['equivalence', equivalence(estimate, { low: -1, high: 1 })],
    ['limitsOfAgreement', limitsOfAgreement(summary)],
    ['typicalError', typicalError(summary)],
    ['repeatability', repeatability(fallen, 3)],
    ['missingAnswersSensitivity', missingAnswersSensitivity(fallen, unanswered, scale, 'lower')],
  ])('%s says method, n, missing and one sentence that counts the missing', (_, finding) => {
    expect(finding.method).not.toBe('');
    expect(finding).toMatchObject({ n: 8, missing: 3 });
    expect(finding.sentence).toMatch(/3 (missing|who)/);
    expect(finding.sentence).toMatch(/^[^\n]+\.$/);
    expect(finding.sentence).not.toMatch(/NaN|undefined|null|Infinity/);
  });

  it.each([0, 1])('stands %d pairs without an interval, a test or a verdict', (n) => {
    const few = fallen.slice(0, n);
    const moments = summariseChanges(few, 2);
    const value = pairedEstimate(moments);
    expect(meanInterval(value, 0.95)).toBeNull();
    expect(tTest(value, 0)).toMatchObject({ t: null, pTwoSided: null });
    expect(wilcoxonSignedRank(few, 2).pTwoSided).toBeNull();
    expect(hodgesLehmann(few, 2).interval95).toBeNull();
    expect(nonInferiority(value, 1)).toMatchObject({ lowerBound95: null, verdict: 'cannot tell' });
    expect(equivalence(value, { low: -1, high: 1 }).verdict).toBe('cannot tell');
    expect(limitsOfAgreement(moments).limits).toBeNull();
    expect(typicalError(moments).typicalError).toBeNull();
    expect(groupDifference(moments, summary, 'unequal').standardError).toBeNull();
  });

  it('takes no spread for no certainty: all alike get no interval and no verdict', () => {
    const alike = Array.from({ length: 9 }, () => ({ before: 5, after: 3 }));
    const value = pairedEstimate(summariseChanges(alike, 0));
    expect(pairedMeanChange(alike, 0).interval95).toBeNull();
    expect(pairedMeanChange(alike, 0).sentence).toBe(
      'All 9 people changed by -2.0; without any spread there is no interval (0 missing).',
    );
    expect(nonInferiority(value, 5).verdict).toBe('cannot tell');
    expect(tTest(value, 0).pTwoSided).toBeNull();
  });

  it('refuses a value that is not a number', () => {
    const broken = [{ before: 5, after: NaN }];
    expect(() => pairedMeanChange(broken, 0)).toThrow(RangeError);
    expect(() => hodgesLehmann(broken, 0)).toThrow(RangeError);
    expect(() => wilcoxonSignedRank(broken, 0)).toThrow(RangeError);
  });
});

describe('pairedMeanChange', () => {
  it.each([
    [[], 4, 'Nobody can be compared; 4 missing.'],
    [[{ before: 6, after: 2 }], 1, 'One person changed by -4.0; that says nothing about others (1 missing).'],
    [
      fallen.slice(0, 3),
      0,
      'In 3 people the mean changed by -3.0 (95 % interval -5.5 to -0.5), too few to say more; 0 missing.',
    ],
    [fallen, 3, 'In 8 people the mean changed by -2.9 (95 % interval -3.6 to -2.2); 3 missing.'],
    [
      fallen.map(({ before }, i) => ({ before, after: before + (i % 2 === 0 ? 1 : -1) })),
      0,
      'In 8 people no change can be told from chance: mean 0.0 (95 % interval -0.9 to 0.9); 0 missing.',
    ],
  ])('%# says what it found', (pairs, missing, sentence) => {
    expect(pairedMeanChange(pairs, missing).sentence).toBe(sentence);
  });
});

describe('nonInferiority', () => {
  const of = (mean: number) => pairedEstimate({ n: 16, missing: 0, mean, standardDeviation: 4 });

  it.each([
    [0, 'not worse'],
    [-4, 'not shown'],
    [-9, 'worse'],
  ])('a mean change of %d against a margin of 5', (mean, verdict) => {
    expect(nonInferiority(of(mean), 5).verdict).toBe(verdict);
  });

  it('refuses a margin that accepts no loss', () => {
    expect(() => nonInferiority(of(0), 0)).toThrow(RangeError);
    expect(() => nonInferiorityOfShare(fallen, 0, 1)).toThrow(RangeError);
  });

  it('as a share cannot tell from one pair, and has no margin without any', () => {
    expect(nonInferiorityOfShare(fallen.slice(0, 1), 2, 0.02).verdict).toBe('cannot tell');
    expect(() => nonInferiorityOfShare([], 2, 0.02)).toThrow(RangeError);
  });

  it('as a share is the plain question when all began alike', () => {
    const alike = [3, -5, 1, -2, 4, 0, -1, 2].map((change) => ({ before: 300, after: 300 + change }));
    const share = nonInferiorityOfShare(alike, 0, 0.02);
    const plain = nonInferiority(pairedEstimate(summariseChanges(alike, 0)), 6);
    expect(share.margin).toBeCloseTo(6, 12);
    expect(share.lowerBound95).toBeCloseTo(plain.lowerBound95 ?? NaN, 9);
    expect(share.verdict).toBe(plain.verdict);
  });
});

describe('responders', () => {
  it('shows what the missing could make of it', () => {
    const found = responders(6, 8, 4);
    expect(found.ofAnswered?.share).toBe(0.75);
    expect(found.worstCase?.share).toBe(0.5);
    expect(found.bestCase?.share).toBeCloseTo(10 / 12, 12);
    expect(found.sentence).toBe(
      '6 of 8 changed by an amount that matters (75 %, 95 % interval 41 % to 93 %); 4 missing, so of the whole group 50 % to 83 %.',
    );
  });

  it('stands an empty group', () => {
    expect(responders(0, 0, 0).sentence).toBe('Nobody answered; 0 missing.');
    expect(responders(0, 0, 5)).toMatchObject({ ofAnswered: null, sentence: 'Nobody answered; 5 missing.' });
  });

  it.each([
    [3, 2, 0],
    [-1, 2, 0],
    [1.5, 2, 0],
  ])('refuses %d of %d', (responded, n, missing) => {
    expect(() => responders(responded, n, missing)).toThrow(RangeError);
  });
});

describe('missingAnswersSensitivity', () => {
  const scale = { low: 0, high: 10 };

  it('holds when even the worst case points the same way', () => {
    const found = missingAnswersSensitivity(fallen, [{ before: 6, lastKnown: 5 }], scale, 'lower');
    expect(found.bestCase.meanChange).toBeCloseTo((8 * -2.875 - 6) / 9, 12);
    expect(found.worstCase.meanChange).toBeCloseTo((8 * -2.875 + 4) / 9, 12);
    expect(found.lastKnown.meanChange).toBeCloseTo((8 * -2.875 - 1) / 9, 12);
    expect(found.robust).toBe(true);
  });

  it('depends when enough are missing', () => {
    const silent = Array.from({ length: 5 }, () => ({ before: 4, lastKnown: null }));
    const found = missingAnswersSensitivity(fallen, silent, scale, 'lower');
    expect(found.robust).toBe(false);
    expect(found.sentence).toMatch(/^The answer depends on the 5 who did not give one/);
  });

  it('spans the scale where nothing is known, and carries nothing forward', () => {
    const found = missingAnswersSensitivity(fallen, [{ before: null, lastKnown: null }], scale, 'higher');
    expect(found.bestCase.meanChange).toBeCloseTo((8 * -2.875 + 10) / 9, 12);
    expect(found.worstCase.meanChange).toBeCloseTo((8 * -2.875 - 10) / 9, 12);
    expect(found.lastKnown).toMatchObject({ n: 8, missing: 1 });
  });

  it('says nothing is sure below six people', () => {
    const found = missingAnswersSensitivity(fallen.slice(0, 5), [], scale, 'lower');
    expect(found.robust).toBe(false);
    expect(found.sentence).toBe('Nobody is missing.');
  });
});

describe('several questions at once', () => {
  it('counts questions that could not be tested, keeps the order, and never lowers p', () => {
    const found = holm(
      [
        { question: 'comfort', p: 0.03 },
        { question: 'pain', p: 0.001 },
      ],
      1,
    );
    expect(found.questions).toEqual([
      { question: 'comfort', p: 0.03, correctedP: 0.06 },
      { question: 'pain', p: 0.001, correctedP: 0.003 },
    ]);
    expect(found.sentence).toBe(
      'With 3 questions asked at once, more than chance remains for: pain (p = 0.003).',
    );
  });

  it('refuses a p that is no chance', () => {
    expect(() => holm([{ question: 'pain', p: 1.2 }], 0)).toThrow(RangeError);
    expect(() => holm([{ question: 'pain', p: NaN }], 0)).toThrow(RangeError);
  });

  it('widens joint intervals', () => {
    expect(jointIntervalLevel(5, 0.95)).toBeCloseTo(0.99, 12);
    expect(jointIntervalLevel(1, 0.9)).toBeCloseTo(0.9, 12);
    expect(() => jointIntervalLevel(0, 0.95)).toThrow(RangeError);
    expect(() => jointIntervalLevel(2, 1)).toThrow(RangeError);
  });
});

describe('limitsOfAgreement', () => {
  it('stands thousands of pairs, where limits become sure', () => {
    const { limits } = limitsOfAgreement({ n: 50_000, missing: 0, mean: 0, standardDeviation: 1 });
    expect(limits?.upper.interval95.low).toBeCloseTo(1.96, 1);
    expect(limits?.upper.interval95.high).toBeCloseTo(1.96, 1);
    expect(limits?.upper.interval95.high).toBeGreaterThan(limits?.upper.interval95.low ?? NaN);
  });
});

describe('equivalence', () => {
  it('refuses bounds out of order', () => {
    expect(() => equivalence(estimate, { low: 1, high: -1 })).toThrow(RangeError);
  });
});
