import { describe, expect, it } from '@jest/globals';
import { clientSummary } from './client-summary.js';
import type { OutcomeInputs, Report } from './outcome-inputs.js';

const before: Report = { pain: 6, comfort: 42, numbness: true, power20MinW: 214 };
const summaryOf = (after: Partial<Report>, baseline: Report | null = before) =>
  clientSummary({
    baseline,
    answers: [{ week: 6, pain: null, comfort: null, numbness: null, power20MinW: null, ...after }],
    found: { saddleHeightMm: 712, cleatBehindMth1LeftMm: 4, cleatBehindMth1RightMm: 4 },
    left: { saddleHeightMm: 692, cleatBehindMth1LeftMm: 31, cleatBehindMth1RightMm: 31 },
    plans: [],
  });
const verdictsOf = (after: Partial<Report>, baseline: Report | null = before): string[] =>
  summaryOf(after, baseline).measures.map(({ verdict }) => verdict);

describe('clientSummary', () => {
  it.each([
    ['better', { pain: 4, comfort: 53, power20MinW: 232 }, 'better'],
    // 30 % of 6 is 1.8, and 2 points are the error; 10.2 points of comfort; 8 % of 214 W is 17.1 W.
    ['no real change', { pain: 5, comfort: 52, power20MinW: 231 }, 'no real change'],
    ['worse', { pain: 8, comfort: 31, power20MinW: 196 }, 'worse'],
    ['cannot tell', {}, 'cannot tell'],
  ])('says %s of every measure', (_, after, verdict) => {
    expect(verdictsOf(after)).toEqual([verdict, verdict, verdict]);
  });

  it('cannot tell without a value from before, and says so', () => {
    expect(verdictsOf({ pain: 1 }, null)[0]).toBe('cannot tell');
    expect(summaryOf({ pain: 1 }, null).text).toContain(
      'Pain on the bike: cannot tell, as there is no value from before.',
    );
  });

  it('needs more of a larger pain to call it better, and says how much', () => {
    const [pain] = summaryOf({ pain: 7 }, { ...before, pain: 9 }).measures;
    expect(pain).toMatchObject({ detectable: 2, verdict: 'no real change' });
    expect(pain?.important).toBeCloseTo(2.7);
  });

  it('tells numb feet gone, stayed, come and unknown apart', () => {
    const verdict = (was: boolean | null, is: boolean | null) =>
      summaryOf({ numbness: is }, { ...before, numbness: was }).numbness.verdict;
    expect([verdict(true, false), verdict(true, true), verdict(false, true), verdict(null, false)]).toEqual([
      'better',
      'no real change',
      'worse',
      'cannot tell',
    ]);
  });

  const planned = (leftMm: number, saddleOffsetMm: number): OutcomeInputs => ({
    baseline: before,
    answers: [{ week: 2, ...before }],
    found: { saddleHeightMm: 712, cleatBehindMth1LeftMm: 4, cleatBehindMth1RightMm: 4 },
    left: { saddleHeightMm: 712 + leftMm, cleatBehindMth1LeftMm: 31, cleatBehindMth1RightMm: 31 },
    plans: (['left', 'right'] as const).map((side) => ({
      side,
      formulaVersion: '1',
      saddleChangeMm: { value: -20, sd: 1.5 },
      saddleOffsetMm,
      footPitchDeg: 25,
      mth1FromHeelMm: 195,
      midfootFromHeelMm: 139,
    })),
  });

  it('holds the saddle left against the one computed, the studio’s own offset in it', () => {
    expect(clientSummary(planned(-17, 0)).saddle).toMatchObject({ differenceMm: 3, asPredicted: true });
    expect(clientSummary(planned(-16, 0)).saddle).toMatchObject({ differenceMm: 4, asPredicted: false });
    expect(clientSummary(planned(-16, 2)).saddle).toMatchObject({ predictedMm: -18, asPredicted: true });
    expect(summaryOf({}).saddle).toBeNull();
  });

  it('reads as a text that can be sent', () => {
    expect(summaryOf({ pain: 1, comfort: 81, numbness: false, power20MinW: 217 }).text).toBe(
      [
        '6 weeks after your fit, compared with before:',
        'Pain on the bike: 6 of 10 before, 1 of 10 now: better. A change of 2 of 10 counts as real.',
        'Comfort on the bike: 42 of 100 before, 81 of 100 now: better. A change of 10.2 of 100 counts as real.',
        '20-minute power: 214 W before, 217 W now: no real change. Less than 17 W can be chance, or too little to matter.',
        'Numb feet: before, not now.',
        'A change after a fit is not proof that the fit did it. If anything new worries you, tell us or a doctor; do not wait for the next question.',
      ].join('\n'),
    );
  });
});
