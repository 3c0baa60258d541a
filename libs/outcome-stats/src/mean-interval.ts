import jStat from 'jstat';
import { isMeasured, type Estimate, type MeasuredEstimate } from './estimate.js';
import type { Interval } from './finding.js';

/**
 * Two-sided interval of a mean by Student's t.
 *
 * @param level share of such intervals that cover the truth. 0–1, both excluded; 0.95 is usual
 * @returns in the unit of the estimate; null when the spread is unknown
 * @throws RangeError when the level is out of range
 * @source Student 1908, Biometrika 6:1–25
 * @example meanInterval({ n: 10, missing: 0, value: -1.58, standardError: 0.38896, degreesOfFreedom: 9 }, 0.95);
 *   // { low: -2.45…, high: -0.70… }
 */
export function meanInterval(estimate: Estimate, level: number): Interval | null {
  if (!(level > 0 && level < 1)) throw new RangeError('level must lie between 0 and 1');
  return isMeasured(estimate) ? measuredInterval(estimate, level) : null;
}

/** The same where the spread is known. */
export function measuredInterval(estimate: MeasuredEstimate, level: number): Interval {
  const margin = jStat.studentt.inv((1 + level) / 2, estimate.degreesOfFreedom) * estimate.standardError;
  return { low: estimate.value - margin, high: estimate.value + margin };
}
