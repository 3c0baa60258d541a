import type { ChangeSummary } from './change-summary.js';
import { fewestForVerdict } from './finding.js';

/** A mean, or a difference of means, with what is needed to judge it by Student's t. */
export interface Estimate {
  readonly n: number;
  readonly missing: number;
  /** Null when there is nobody to estimate from. */
  readonly value: number | null;
  /** Null when the spread is unknown: fewer than two people. */
  readonly standardError: number | null;
  readonly degreesOfFreedom: number;
}

/**
 * The mean change of one group.
 *
 * @example pairedEstimate({ n: 8, missing: 0, mean: 2, standardDeviation: 6.505 }).standardError; // 2.29…
 */
export function pairedEstimate({ n, missing, mean, standardDeviation }: ChangeSummary): Estimate {
  return {
    n,
    missing,
    value: mean,
    standardError: standardDeviation === null ? null : standardDeviation / Math.sqrt(n),
    degreesOfFreedom: Math.max(n - 1, 0),
  };
}

/** An estimate whose spread is known. */
export type MeasuredEstimate = Estimate & { readonly value: number; readonly standardError: number };

/** False below two people, and where all changed by exactly the same: no spread to judge by is not certainty. */
export function isMeasured(estimate: Estimate): estimate is MeasuredEstimate {
  return estimate.value !== null && estimate.standardError !== null && estimate.standardError > 0;
}

/** The estimate when a test or verdict may rest on it; otherwise the reason why not. */
export function fitForVerdict(estimate: Estimate): MeasuredEstimate | string {
  if (estimate.n < fewestForVerdict) return `${estimate.n} are too few to say`;
  return isMeasured(estimate) ? estimate : 'all changed by the same, so the spread is unknown';
}
