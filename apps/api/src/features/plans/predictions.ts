import { positionError, positionField, type PositionFieldId } from '@studio/fit-math';
import type { PositionResponse } from '../fit-sessions/index.js';
import type { Prediction } from './plan-kind.js';

/** A predicted figure beside the ones that were found and left. */
export interface PredictedAndLeft {
  readonly field: PositionFieldId;
  readonly unit: 'mm' | 'deg';
  readonly found: number | null;
  /** Null: a change of a figure that was not measured as found. */
  readonly predicted: number | null;
  /** Standard deviation of the prediction: what was measured for it, and the figure as found where it starts there. */
  readonly predictedSd: number | null;
  readonly left: number | null;
  /** Left less predicted. */
  readonly difference: number | null;
  /** Whether prediction and measuring alone would give as much in 19 of 20. */
  readonly withinError: boolean | null;
}

type Position = Pick<PositionResponse, PositionFieldId | 'methods'>;

/**
 * Predicted beside left. Errors are independent and add as squares (JCGM 100:2008, 5.1.2); 1.96 standard deviations hold
 * 19 of 20. Where the formula gives no error, that of measuring counts alone.
 */
export function besideLeft(
  { field, as, predicted: { value, sd } }: Prediction,
  found: Position | null,
  left: Position | null,
): PredictedAndLeft {
  const { unit } = positionField(field);
  const start = as === 'change' ? (found?.[field] ?? null) : 0;
  const startSd = as === 'change' ? errorOf(found, field) : 0;
  const predicted = start === null ? null : start + value;
  const predictedSd = start === null ? null : Math.hypot(sd ?? 0, startSd);
  const standing = left?.[field] ?? null;
  const difference = predicted === null || standing === null ? null : standing - predicted;
  const withinError =
    difference === null || predictedSd === null
      ? null
      : Math.abs(difference) <= 1.96 * Math.hypot(predictedSd, errorOf(left, field));
  return {
    field,
    unit,
    found: found?.[field] ?? null,
    predicted,
    predictedSd,
    left: standing,
    difference,
    withinError,
  };
}

const errorOf = (position: Position | null, field: PositionFieldId): number =>
  positionError(field, position?.methods[field] ?? null);
