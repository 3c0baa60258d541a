import { fitForVerdict, type Estimate } from './estimate.js';
import type { Finding } from './finding.js';
import { meanInterval, measuredInterval } from './mean-interval.js';
import { oneDecimal } from './wording.js';

export interface NonInferiority extends Finding {
  readonly method: 'non-inferiority, one-sided 95 % bound by Student’s t';
  /** The loss that would still be accepted, above 0, in the unit of the estimate. */
  readonly margin: number;
  readonly meanChange: number | null;
  /** With 95 % confidence the mean change is not below this. */
  readonly lowerBound95: number | null;
  /** With 95 % confidence the mean change is not above this. */
  readonly upperBound95: number | null;
  /**
   * `not worse`: any loss is smaller than the margin; `worse`: the loss exceeds the margin; `not shown`: neither could
   * be shown; `cannot tell`: too few people.
   */
  readonly verdict: 'not worse' | 'worse' | 'not shown' | 'cannot tell';
}

/**
 * Was nothing lost beyond a margin? For measures of which more is better.
 *
 * @param estimate after − before: positive is a gain
 * @param margin above 0, in the unit of the estimate, chosen before looking
 * @throws RangeError when the margin is not above 0
 * @source one-sided confidence bound, as in Schuirmann 1987, J Pharmacokinet Biopharm 15:657–680, for one side
 * @example nonInferiority(pairedEstimate({ n: 8, missing: 0, mean: 2, standardDeviation: 6.505 }), 6.84).verdict; // 'not worse'
 */
export function nonInferiority(estimate: Estimate, margin: number): NonInferiority {
  if (!(margin > 0)) throw new RangeError('the margin must be above 0');
  const { n, missing, value } = estimate;
  const bounds = meanInterval(estimate, 0.9);
  const common = {
    method: 'non-inferiority, one-sided 95 % bound by Student’s t',
    n,
    missing,
    margin,
    meanChange: value,
    lowerBound95: bounds?.low ?? null,
    upperBound95: bounds?.high ?? null,
  } as const;
  const measured = fitForVerdict(estimate);
  if (typeof measured === 'string') {
    const sentence = `Cannot tell whether anything was lost: ${measured} (${missing} missing).`;
    return { ...common, verdict: 'cannot tell', sentence };
  }
  const { low, high } = measuredInterval(measured, 0.9);
  const verdict = low > -margin ? 'not worse' : high < -margin ? 'worse' : 'not shown';
  const opening = {
    'not worse': 'No loss beyond the margin',
    worse: 'A loss beyond the margin',
    'not shown': 'A loss beyond the margin is not ruled out',
  }[verdict];
  const sentence =
    `${opening}: in ${n} people the mean changed by ${oneDecimal(measured.value)}, with 95 % confidence by no less ` +
    `than ${oneDecimal(low)}; a loss of ${oneDecimal(margin)} was accepted; ${missing} missing.`;
  return { ...common, verdict, sentence };
}
