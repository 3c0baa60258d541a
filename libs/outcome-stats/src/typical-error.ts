import jStat from 'jstat';
import type { ChangeSummary } from './change-summary.js';
import type { Finding, Interval } from './finding.js';
import { oneDecimal, spelled } from './wording.js';

export interface TypicalError extends Finding {
  readonly method: 'typical error of measuring twice, χ² interval';
  /** Standard deviation of one measurement of a person who did not change; null below two pairs. */
  readonly typicalError: number | null;
  /** Null below two pairs. */
  readonly interval95: Interval | null;
  /** A change of one person below this is within the error of measuring, at 95 %; null below two pairs. */
  readonly minimalDetectableChange: number | null;
}

/**
 * The error of measuring, from people measured twice with nothing changed in between. A shift common to all (learning,
 * warmer weather) does not count as error.
 *
 * @param repeats `before` the first, `after` the second measurement
 * @source Hopkins 2000, Sports Med 30:1–15: standard deviation of the differences over √2; Weir 2005, J Strength Cond
 *   Res 19:231–240: minimal detectable change 1.96 √2 times it
 * @example typicalError({ n: 8, missing: 0, mean: 2, standardDeviation: 6.505 }).minimalDetectableChange; // 12.7…
 */
export function typicalError({ n, missing, standardDeviation }: ChangeSummary): TypicalError {
  const common = { method: 'typical error of measuring twice, χ² interval', n, missing } as const;
  if (standardDeviation === null) {
    const sentence = `The error of measuring cannot be told from ${n === 1 ? 'one pair' : 'no pair'}; ${missing} missing.`;
    return { ...common, typicalError: null, interval95: null, minimalDetectableChange: null, sentence };
  }
  const error = standardDeviation / Math.SQRT2;
  const end = (p: number): number => error * Math.sqrt((n - 1) / jStat.chisquare.inv(p, n - 1));
  const interval95 = { low: end(0.975), high: end(0.025) };
  const minimalDetectableChange = jStat.normal.inv(0.975, 0, 1) * standardDeviation;
  return {
    ...common,
    typicalError: error,
    interval95,
    minimalDetectableChange,
    sentence: `One measurement errs by ${oneDecimal(error)} (95 % interval ${spelled(interval95)}, ${n} pairs); a change of one person below ${oneDecimal(minimalDetectableChange)} is within that error; ${missing} missing.`,
  };
}
