import { summariseChanges } from '@studio/outcome-stats';
import type { DistributionResponse } from './review.dto.js';

/**
 * Mean, spread and quartiles; null of nothing.
 *
 * @source quartiles: linear between order statistics, Hyndman & Fan 1996, Am Stat 50:361–365, definition 7
 */
export function distributionOf(values: readonly number[]): DistributionResponse | null {
  const sorted = [...values].sort((one, other) => one - other);
  const { mean, standardDeviation } = summariseChanges(
    sorted.map((after) => ({ before: 0, after })),
    0,
  );
  if (mean === null) return null;
  const quantile = (share: number): number => {
    const at = share * (sorted.length - 1);
    const below = sorted[Math.floor(at)] ?? NaN;
    const above = sorted[Math.ceil(at)] ?? NaN;
    return below + (above - below) * (at - Math.floor(at));
  };
  return {
    mean,
    standardDeviation,
    least: quantile(0),
    lowerQuartile: quantile(0.25),
    median: quantile(0.5),
    upperQuartile: quantile(0.75),
    most: quantile(1),
  };
}
