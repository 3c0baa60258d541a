import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';

export interface SideDifference {
  /** Left less right: positive = left larger. */
  readonly difference: Uncertain;
  /** Whether it is more than measuring two even sides would give in 19 of 20. */
  readonly beyondError: boolean;
}

/**
 * Left less right of two measured sides, with its error.
 *
 * @param left mean and standard deviation, as `summariseRepeats` gives them
 * @param right the same in the same unit
 * @throws FitMathError naming the side that is no number or has a negative error
 * @source JCGM 100:2008 (GUM), section 5.1.2: independent errors add as squares
 * @check src/repeats/repeats: by hand, mirrored
 * @tolerance exact
 * @example sideDifference({ value: 434, sd: 3 }, { value: 424, sd: 4 }).difference; // { value: 10, sd: 5 }
 */
export function sideDifference(left: Uncertain, right: Uncertain): SideDifference {
  for (const [side, measured] of Object.entries({ left, right })) {
    requireRange(`${side}.value`, measured.value, -1e6, 1e6);
    requireRange(`${side}.sd`, measured.sd, 0, 1e6);
  }
  const difference = { value: left.value - right.value, sd: Math.hypot(left.sd, right.sd) };
  return { difference, beyondError: Math.abs(difference.value) > 1.96 * difference.sd };
}
