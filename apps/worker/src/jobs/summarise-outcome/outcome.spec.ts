import { describe, expect, it } from '@jest/globals';
import type { CleatPlan } from '@studio/fit-math';
import { outcomeOf, type OutcomeInputs } from './outcome.js';

const plan = (way: string, mm: number): CleatPlan =>
  ({ options: [{ way, saddleHeightChangeMm: { value: mm, sd: 1 } }] }) as unknown as CleatPlan;

const inputs: OutcomeInputs = {
  baseline: { pain: 6, comfort: 40, numbness: true, power20MinW: null },
  answers: [
    { pain: 4, comfort: 60, numbness: true, power20MinW: 250 },
    { pain: 2, comfort: null, numbness: false, power20MinW: null },
  ],
  saddleFoundMm: 742,
  saddleLeftMm: 728,
  plans: [
    { result: plan('rear_plate_24', -14), chosenOption: 'rear_plate_24' },
    { result: plan('rear_plate_24', -16), chosenOption: 'rear_plate_24' },
  ],
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
      saddleChangeLeftMm: -14,
    });
  });

  it('leaves open what is not known', () => {
    const nothing = outcomeOf({
      baseline: null,
      answers: [],
      saddleFoundMm: 742,
      saddleLeftMm: null,
      plans: [],
    });
    expect(Object.values(nothing)).toEqual(Array(10).fill(null));
  });
});
