import jStat from 'jstat';
import type { ChangeSummary } from './change-summary.js';
import { pairedEstimate } from './estimate.js';
import type { Finding, Interval } from './finding.js';
import { meanInterval } from './mean-interval.js';
import { noncentralTQuantile } from './noncentral-t.js';
import { oneDecimal, spelled } from './wording.js';

interface Limit {
  readonly value: number;
  readonly interval95: Interval;
}

export interface LimitsOfAgreement extends Finding {
  readonly method: 'limits of agreement, exact intervals';
  /** Mean of second − first; null without a pair. */
  readonly bias: number | null;
  /** Null below two pairs. */
  readonly biasInterval95: Interval | null;
  /** 95 % of the differences lie between the limits; null below two pairs. */
  readonly limits: { readonly lower: Limit; readonly upper: Limit } | null;
}

/**
 * How far two ways of getting the same number are apart: a prediction and what was left, two devices, two fitters.
 *
 * Supposes that the differences are roughly normal and of like size along the scale.
 *
 * @param differences `before` the first way, `after` the second
 * @source Bland & Altman 1986, Lancet i:307–310, with 1.96 for their 2; intervals: Carkeet 2015, Optom Vis Sci
 *   92:e71–e80, limits taken singly (the approximate interval of 1986 covers only 92 % at n = 6)
 * @example limitsOfAgreement(summariseChanges([{ before: -9, after: -8 }, { before: -12, after: -13 }], 0)).bias; // 0
 */
export function limitsOfAgreement(differences: ChangeSummary): LimitsOfAgreement {
  const { n, missing, mean, standardDeviation } = differences;
  const common = {
    method: 'limits of agreement, exact intervals',
    n,
    missing,
    bias: mean,
    biasInterval95: meanInterval(pairedEstimate(differences), 0.95),
  } as const;
  if (mean === null || standardDeviation === null) {
    const sentence = `Agreement cannot be judged from ${n === 1 ? 'one pair' : 'no pair'}; ${missing} missing.`;
    return { ...common, limits: null, sentence };
  }
  const z = jStat.normal.inv(0.975, 0, 1);
  const shift = z * Math.sqrt(n);
  const near = (noncentralTQuantile(0.025, n - 1, shift) / Math.sqrt(n)) * standardDeviation;
  const far = (noncentralTQuantile(0.975, n - 1, shift) / Math.sqrt(n)) * standardDeviation;
  const limits = {
    lower: { value: mean - z * standardDeviation, interval95: { low: mean - far, high: mean - near } },
    upper: { value: mean + z * standardDeviation, interval95: { low: mean + near, high: mean + far } },
  };
  const range = spelled({ low: limits.lower.value, high: limits.upper.value });
  const widest = spelled({ low: mean - far, high: mean + far });
  return {
    ...common,
    limits,
    sentence: `Of ${n} pairs the second is higher by ${oneDecimal(mean)} on average; 95 % of differences lie within ${range}, and given so few pairs perhaps within ${widest}; ${missing} missing.`,
  };
}
