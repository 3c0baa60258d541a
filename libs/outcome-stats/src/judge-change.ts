import type { OutcomeMeasure, Threshold } from './outcome-measures.js';

export type ChangeVerdict = 'better' | 'no real change' | 'worse' | 'cannot tell';

/**
 * What one person's change amounts to: real only when it reaches both the detectable and the important change.
 *
 * Where a threshold has points and a share of the value before, getting better takes both (house rule: from a high
 * start more points are needed), and getting worse takes the points, as the scale may leave no room for the share.
 *
 * @param before null when not answered
 * @param after null when not answered
 * @returns `cannot tell` when an answer is missing, or when the measure has no threshold at all
 * @throws RangeError when a value lies outside the scale
 * @example judgeChange(outcomeMeasures.pain, 8, 6); // 'no real change': 30 % of 8 is 2.4
 */
export function judgeChange(
  measure: OutcomeMeasure,
  before: number | null,
  after: number | null,
): ChangeVerdict {
  if (before === null || after === null) return 'cannot tell';
  requireOnScale(measure, before);
  requireOnScale(measure, after);
  const thresholds = [measure.detectable, measure.important].filter((threshold) => threshold !== null);
  if (thresholds.length === 0) return 'cannot tell';
  const gain = measure.better === 'higher' ? after - before : before - after;
  const needed = Math.max(...thresholds.map((threshold) => neededChange(threshold, before, gain > 0)));
  if (Math.abs(gain) < needed || gain === 0) return 'no real change';
  return gain > 0 ? 'better' : 'worse';
}

/**
 * How large one person's change must be to reach a threshold, in the unit of the measure.
 *
 * @example neededChange(outcomeMeasures.pain.important, 8, true); // 2.4
 */
export function neededChange(
  { points, shareOfBefore }: Threshold,
  before: number,
  gettingBetter: boolean,
): number {
  const share = shareOfBefore === null ? 0 : shareOfBefore * Math.abs(before);
  if (points === null) return share;
  return gettingBetter ? Math.max(points, share) : points;
}

function requireOnScale({ scale }: OutcomeMeasure, value: number): void {
  const low = scale?.low ?? -Infinity;
  const high = scale?.high ?? Infinity;
  if (!Number.isFinite(value) || value < low || value > high) {
    throw new RangeError(`${value} is not between ${low} and ${high}`);
  }
}
