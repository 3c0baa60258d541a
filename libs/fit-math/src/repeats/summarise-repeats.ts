import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';

export interface RepeatsSummary {
  /** The mean of the readings and the standard deviation of that mean, in the unit of the readings. */
  readonly mean: Uncertain;
  /** Standard deviation of one reading as these repeats show it. */
  readonly typicalError: number;
  /** The smallest change between two such means that measuring alone would not give in 19 of 20. */
  readonly minimalDetectableChange: number;
  /** Places, from 0, of readings so far from the median that they should be taken again. None is dropped. */
  readonly readAgain: readonly number[];
}

/**
 * What 2–5 readings of the same thing are worth together.
 *
 * So few readings can agree by luck: the error of the mean is never taken smaller than the kind's usual error allows.
 * A reading is to be taken again when it lies more than three usual errors from the median (house rule).
 *
 * @param readings 2–5 readings in one unit, taken anew each time
 * @param usualError standard deviation of one careful reading of this kind, in the same unit. Above 0
 * @throws FitMathError naming the reading or count outside its range
 * @source typical error as the within-subject standard deviation: Hopkins 2000, Sports Med 30:1–15; minimal
 *   detectable change 1.96 × √2 × error: Weir 2005, J Strength Cond Res 19:231–240 (both citations from memory)
 * @check src/repeats/repeats: by hand
 * @tolerance 1e-6
 * @example summariseRepeats([432, 436], 2).mean.value; // 434
 */
export function summariseRepeats(readings: readonly number[], usualError: number): RepeatsSummary {
  const n = requireRange('readings.length', readings.length, 2, 5);
  requireRange('usualError', usualError, 1e-6, 1e6);
  readings.forEach((reading, index) => requireRange(`readings.${index}`, reading, -1e6, 1e6));

  const mean = readings.reduce((sum, reading) => sum + reading, 0) / n;
  const typicalError = Math.sqrt(readings.reduce((sum, reading) => sum + (reading - mean) ** 2, 0) / (n - 1));
  const sd = Math.max(typicalError, usualError) / Math.sqrt(n);
  const middle = medianOf(readings);
  return {
    mean: { value: mean, sd },
    typicalError,
    minimalDetectableChange: 1.96 * Math.SQRT2 * sd,
    readAgain: readings.flatMap((reading, index) =>
      Math.abs(reading - middle) > 3 * usualError ? [index] : [],
    ),
  };
}

function medianOf(readings: readonly number[]): number {
  const sorted = [...readings].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
  const lower = sorted[Math.ceil(sorted.length / 2) - 1] ?? Number.NaN;
  return (lower + upper) / 2;
}
