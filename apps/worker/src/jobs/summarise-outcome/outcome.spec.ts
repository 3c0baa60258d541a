import { describe, expect, it } from '@jest/globals';
import { outcomeOf } from './outcome.js';
import type { OutcomeInputs, PlanFacts } from './outcome-inputs.js';

const plan = (side: 'left' | 'right', mm: number): PlanFacts => ({
  side,
  formulaVersion: '1',
  saddleChangeMm: { value: mm, sd: 1 },
  saddleOffsetMm: 0.5,
  footPitchDeg: 20,
  mth1FromHeelMm: 205,
  midfootFromHeelMm: 145,
});
const at = (saddleHeightMm: number, cleat: number): OutcomeInputs['found'] => ({
  saddleHeightMm,
  cleatBehindMth1LeftMm: cleat,
  cleatBehindMth1RightMm: cleat + 2,
});

const inputs: OutcomeInputs = {
  baseline: { pain: 6, comfort: 40, numbness: true, power20MinW: null },
  answers: [
    { week: 2, pain: 4, comfort: 60, numbness: true, power20MinW: 250 },
    { week: 6, pain: 2, comfort: null, numbness: false, power20MinW: null },
  ],
  found: at(742, 5),
  left: at(728, 32),
  plans: [plan('left', -14), plan('right', -16)],
};

describe('outcomeOf', () => {
  it('takes each measure as last reported', () => {
    expect(outcomeOf(inputs)).toEqual({
      painBefore: 6,
      painAfter: 2,
      comfortBefore: 40,
      comfortAfter: 60,
      numbnessBefore: true,
      numbnessAfter: false,
      power20MinBeforeW: null,
      power20MinAfterW: 250,
      saddleChangePredictedMm: -15,
      saddleOffsetMm: 0.5,
      saddleChangeLeftMm: -14,
      cleatMovedBackMm: 27,
      // 205 − 145 less 32 on the left and 34 on the right.
      cleatShortOfMidfootMm: 27,
      footPitchDeg: 20,
    });
  });

  it('leaves open what is not known', () => {
    const nothing = outcomeOf({ baseline: null, answers: [], found: at(742, 5), left: null, plans: [] });
    const { saddleOffsetMm, ...unknown } = nothing;
    expect(saddleOffsetMm).toBe(0);
    expect(Object.values(unknown)).toEqual(Array(13).fill(null));
  });
});
