import { describe, expect, it } from '@jest/globals';
import { outcomeOf } from './outcome.js';
import type { OutcomeInputs, PlanFacts, PositionFacts } from './outcome-inputs.js';
import { answer } from './testing/answer.js';

const plan = (side: 'left' | 'right', mm: number): PlanFacts => ({
  side,
  formulaVersion: '1',
  saddleChangeMm: { value: mm, sd: 1 },
  saddleOffsetMm: 0.5,
  footPitchDeg: 20,
  mth1FromHeelMm: 205,
  midfootFromHeelMm: 145,
});
const at = (saddleHeightMm: number, cleat: number): PositionFacts => ({
  saddleHeightMm,
  cleatBehindMth1LeftMm: cleat,
  cleatBehindMth1RightMm: cleat + 2,
  crankLengthMm: 172.5,
});

const inputs: OutcomeInputs = {
  baseline: { pain: 6, comfort: 40, numbness: true, power20MinW: null },
  activitiesBefore: [4, 2, 5],
  answers: [
    answer({ week: 2, pain: 4, comfort: 60, numbness: true, power20MinW: 250, activities: [6, 7, null] }),
    answer({
      week: 6,
      pain: 2,
      numbness: false,
      overallChange: 3,
      walkingComfort: 7,
      sprintFeel: 'not_tried',
    }),
  ],
  found: at(742, 5),
  left: { ...at(728, 32), crankLengthMm: 165 },
  plans: [plan('left', -14), plan('right', -16)],
  legLengthOption: 'shim/longer',
};
const nothingKnown: OutcomeInputs = {
  ...{ baseline: null, activitiesBefore: [], answers: [] },
  ...{ found: at(742, 5), left: null, plans: [], legLengthOption: null },
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
      // Means of the two that were told both times.
      activitiesBefore: 3,
      activitiesAfter: 6.5,
      overallChange: 3,
      walkingComfort: 7,
      sprintFeel: 'not_tried',
      standingFeel: null,
      crankChangeMm: -7.5,
      legLengthOption: 'shim/longer',
    });
  });

  it('leaves open what is not known', () => {
    const { saddleOffsetMm, ...unknown } = outcomeOf(nothingKnown);
    expect(saddleOffsetMm).toBe(0);
    expect(Object.values(unknown)).toEqual(Array(21).fill(null));
  });
});
