import { describe, expect, it } from '@jest/globals';
import { positionError, positionFieldIds } from '@studio/fit-math';
import type { PositionResponse } from '../fit-sessions/index.js';
import type { Prediction } from './plan-kind.js';
import { besideLeft } from './predictions.js';

const position = (figures: Partial<PositionResponse>): PositionResponse =>
  ({
    ...Object.fromEntries(positionFieldIds.map((id) => [id, null])),
    methods: {},
    ...figures,
  }) as PositionResponse;

const lower: Prediction = { field: 'saddleHeightMm', as: 'change', predicted: { value: -15, sd: 1.5 } };
const tape = positionError('saddleHeightMm', null);

describe('besideLeft', () => {
  it('counts a change from what was found, with the error of finding it', () => {
    const beside = besideLeft(lower, position({ saddleHeightMm: 740 }), position({ saddleHeightMm: 726 }));
    expect(beside).toMatchObject({ predicted: 725, left: 726, difference: 1, withinError: true });
    expect(beside.predictedSd).toBeCloseTo(Math.hypot(1.5, tape), 12);
  });

  it('is within the error up to 1.96 standard deviations of predicting and measuring both', () => {
    const edge = 1.96 * Math.hypot(1.5, tape, tape);
    const leftAt = (off: number) =>
      besideLeft(lower, position({ saddleHeightMm: 740 }), position({ saddleHeightMm: 725 + off }))
        .withinError;
    expect([edge - 0.01, edge + 0.01, -edge + 0.01, -edge - 0.01].map(leftAt)).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });

  it('takes a figure itself as it is, and the error of an estimate for greater', () => {
    const place: Prediction = { field: 'saddleSetbackMm', as: 'value', predicted: { value: 60, sd: null } };
    const left = (methods: PositionResponse['methods']) =>
      besideLeft(place, null, position({ saddleSetbackMm: 64, methods }));
    expect(left({})).toMatchObject({ predicted: 60, predictedSd: 0, difference: 4, withinError: false });
    expect(left({ saddleSetbackMm: 'estimate' }).withinError).toBe(true);
  });

  it('tells nothing of what was not measured', () => {
    const nothing = { difference: null, withinError: null };
    expect(besideLeft(lower, null, position({ saddleHeightMm: 726 }))).toMatchObject({
      predicted: null,
      ...nothing,
    });
    expect(besideLeft(lower, position({ saddleHeightMm: 740 }), null)).toMatchObject({
      left: null,
      ...nothing,
    });
  });
});
