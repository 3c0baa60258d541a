import { summariseChanges } from './change-summary.js';
import { pairedEstimate } from './estimate.js';
import { fewestForVerdict, type Finding, type Interval } from './finding.js';
import { meanInterval } from './mean-interval.js';
import type { Pair } from './pair.js';
import { oneDecimal, spelled } from './wording.js';

export interface PairedMeanChange extends Finding {
  readonly method: 'paired mean difference, t interval';
  /** Pairs with both values. */
  readonly n: number;
  /** Those of whom one value or both are not known. */
  readonly missing: number;
  /** Mean of after − before; null without a pair. */
  readonly meanChange: number | null;
  /** 95 % interval of the mean change; null below two pairs, and where all changed by exactly the same. */
  readonly interval95: Interval | null;
}

/**
 * The mean change from before to after with its 95 % interval by Student's t.
 *
 * @param pairs after and before of the same person
 * @param missing how many belong to the group but have no pair
 * @returns in the unit of the values; positive when `after` is larger
 * @throws RangeError when a value is not finite
 * @source Student 1908, Biometrika 6:1–25
 * @example pairedMeanChange([{ before: 6, after: 2 }, { before: 5, after: 3 }, { before: 7, after: 4 }], 1).meanChange; // -3
 */
export function pairedMeanChange(pairs: readonly Pair[], missing: number): PairedMeanChange {
  const estimate = pairedEstimate(summariseChanges(pairs, missing));
  const interval95 = meanInterval(estimate, 0.95);
  return {
    method: 'paired mean difference, t interval',
    n: estimate.n,
    missing,
    meanChange: estimate.value,
    interval95,
    sentence: sentence(estimate.n, missing, estimate.value, interval95),
  };
}

function sentence(n: number, missing: number, mean: number | null, interval95: Interval | null): string {
  if (mean === null) return `Nobody can be compared; ${missing} missing.`;
  const change = oneDecimal(mean);
  if (n === 1) {
    return `One person changed by ${change}; that says nothing about others (${missing} missing).`;
  }
  if (interval95 === null) {
    return `All ${n} people changed by ${change}; without any spread there is no interval (${missing} missing).`;
  }
  const range = `95 % interval ${spelled(interval95)}`;
  if (n < fewestForVerdict) {
    return `In ${n} people the mean changed by ${change} (${range}), too few to say more; ${missing} missing.`;
  }
  return interval95.low > 0 || interval95.high < 0
    ? `In ${n} people the mean changed by ${change} (${range}); ${missing} missing.`
    : `In ${n} people no change can be told from chance: mean ${change} (${range}); ${missing} missing.`;
}
