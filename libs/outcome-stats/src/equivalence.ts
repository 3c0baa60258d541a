import { fitForVerdict, type Estimate } from './estimate.js';
import type { Finding, Interval } from './finding.js';
import { meanInterval, measuredInterval } from './mean-interval.js';
import { testAgainst } from './t-test.js';
import { oneDecimal, spelled } from './wording.js';

interface OneSided {
  readonly t: number;
  readonly p: number;
}

export interface Equivalence extends Finding {
  readonly method: 'equivalence, two one-sided t tests';
  readonly bounds: Interval;
  readonly meanChange: number | null;
  /** Equivalence is shown where this lies within the bounds. */
  readonly interval90: Interval | null;
  /** Against the lower bound: is the mean above it? Null without a verdict. */
  readonly aboveLower: OneSided | null;
  /** Against the upper bound: is the mean below it? Null without a verdict. */
  readonly belowUpper: OneSided | null;
  readonly verdict: 'equivalent' | 'not shown' | 'cannot tell';
}

/**
 * Is the change too small to matter, in either direction?
 *
 * @param bounds changes between these do not matter, in the unit of the estimate, chosen before looking
 * @throws RangeError when the bounds are not in order
 * @source Schuirmann 1987, J Pharmacokinet Biopharm 15:657–680
 * @example equivalence(pairedEstimate(summary), { low: -0.5, high: 0.5 }).verdict;
 */
export function equivalence(estimate: Estimate, bounds: Interval): Equivalence {
  if (!(bounds.low < bounds.high)) throw new RangeError('the lower bound must lie below the upper');
  const { n, missing, value } = estimate;
  const common = {
    method: 'equivalence, two one-sided t tests',
    n,
    missing,
    bounds,
    meanChange: value,
    interval90: meanInterval(estimate, 0.9),
  } as const;
  const measured = fitForVerdict(estimate);
  if (typeof measured === 'string') {
    const sentence = `Cannot tell whether the change is too small to matter: ${measured} (${missing} missing).`;
    return { ...common, aboveLower: null, belowUpper: null, verdict: 'cannot tell', sentence };
  }
  const lower = testAgainst(measured, bounds.low);
  const upper = testAgainst(measured, bounds.high);
  const interval = measuredInterval(measured, 0.9);
  const equivalent = interval.low > bounds.low && interval.high < bounds.high;
  const opening = equivalent
    ? 'The change is too small to matter'
    : 'It is not shown that the change is too small to matter';
  return {
    ...common,
    aboveLower: { t: lower.t, p: lower.pGreater },
    belowUpper: { t: upper.t, p: upper.pLess },
    verdict: equivalent ? 'equivalent' : 'not shown',
    sentence: `${opening}: mean ${oneDecimal(measured.value)} (90 % interval ${spelled(interval)}), bounds ${spelled(bounds)}, ${n} people; ${missing} missing.`,
  };
}
