import jStat from 'jstat';
import { summariseChanges } from './change-summary.js';
import { pairedEstimate } from './estimate.js';
import { nonInferiority, type NonInferiority } from './non-inferiority.js';
import type { Pair } from './pair.js';

/**
 * Was no more than a share of the value before lost, on the mean? For measures of which more is better.
 *
 * The question “mean after above (1 − share) × mean before” is asked of each person's after − (1 − share) × before, so
 * the mean before, being itself an estimate, is not taken for known.
 *
 * @param pairs of positive values, such as W
 * @param missing how many belong to the group but have no pair
 * @param acceptedShare 0–1, both excluded; 0.02 accepts a loss of 2 %
 * @returns margin, mean change and bounds in the unit of the values
 * @throws RangeError without a pair (the margin is a share of the mean before), when the share is out of range, or
 *   when a value is not finite
 * @example nonInferiorityOfShare(pairs, 3, 0.02).verdict;
 */
export function nonInferiorityOfShare(
  pairs: readonly Pair[],
  missing: number,
  acceptedShare: number,
): NonInferiority {
  if (!(acceptedShare > 0 && acceptedShare < 1)) throw new RangeError('the share must lie between 0 and 1');
  const margin = acceptedShare * jStat.mean(pairs.map(({ before }) => before));
  const contrast = pairedEstimate(
    summariseChanges(
      pairs.map(({ before, after }) => ({ before: before * (1 - acceptedShare), after })),
      missing,
    ),
  );
  if (contrast.value === null) throw new RangeError('without a pair the margin is unknown');
  return nonInferiority({ ...contrast, value: contrast.value - margin }, margin);
}
