import { fewestForVerdict, type Finding, type Interval } from './finding.js';
import type { Pair } from './pair.js';
import { pairedMeanChange, type PairedMeanChange } from './paired-mean-change.js';
import { oneDecimal } from './wording.js';

/** Somebody whose last answer is not there. */
export interface Unanswered {
  /** Null when not known either. */
  readonly before: number | null;
  /** The latest answer given after the change; null when there is none. */
  readonly lastKnown: number | null;
}

export interface MissingAnswersSensitivity extends Finding {
  readonly method: 'missing answers: best case, worst case, last known';
  readonly asAnswered: PairedMeanChange;
  /** All who are missing ended at the good end of the scale. */
  readonly bestCase: PairedMeanChange;
  /** All who are missing ended at the bad end. */
  readonly worstCase: PairedMeanChange;
  /** Who is missing stayed at the last answer, or, without one, at the value before. */
  readonly lastKnown: PairedMeanChange;
  /** Whether all four agree on the direction of change beyond chance. */
  readonly robust: boolean;
}

/**
 * How much the answer depends on those who did not give one.
 *
 * Who has no value before either begins at the far end of the scale in the best and worst case, and stays missing in
 * the last known.
 *
 * @param scale ends of the scale, or the least and most that is plausible
 * @throws RangeError when a value is not finite or the ends are not in order
 * @source worst-case bounds: Manski 1990, Am Econ Rev 80:319–323
 * @example missingAnswersSensitivity(pairs, unanswered, { low: 0, high: 10 }, 'lower').robust;
 */
export function missingAnswersSensitivity(
  pairs: readonly Pair[],
  unanswered: readonly Unanswered[],
  scale: Interval,
  better: 'lower' | 'higher',
): MissingAnswersSensitivity {
  if (!(scale.low < scale.high)) throw new RangeError('the ends of the scale must be in order');
  const [bad, good] = better === 'higher' ? [scale.low, scale.high] : [scale.high, scale.low];
  const allEndAt = (end: number, otherEnd: number): PairedMeanChange =>
    pairedMeanChange(
      [...pairs, ...unanswered.map(({ before }) => ({ before: before ?? otherEnd, after: end }))],
      0,
    );
  const carried = unanswered.flatMap(({ before, lastKnown }) =>
    before === null ? [] : [{ before, after: lastKnown ?? before }],
  );
  const asAnswered = pairedMeanChange(pairs, unanswered.length);
  const bestCase = allEndAt(good, bad);
  const worstCase = allEndAt(bad, good);
  const lastKnown = pairedMeanChange([...pairs, ...carried], unanswered.length - carried.length);
  const directions = [asAnswered, bestCase, worstCase, lastKnown].map(direction);
  const robust = directions[0] !== 0 && directions.every((found) => found === directions[0]);
  const cases = { asAnswered, bestCase, worstCase, lastKnown };
  return {
    method: 'missing answers: best case, worst case, last known',
    n: pairs.length,
    missing: unanswered.length,
    ...cases,
    robust,
    sentence: sentence(unanswered.length, robust, cases),
  };
}

function sentence(
  missing: number,
  robust: boolean,
  {
    asAnswered,
    bestCase,
    worstCase,
    lastKnown,
  }: Pick<MissingAnswersSensitivity, 'asAnswered' | 'bestCase' | 'worstCase' | 'lastKnown'>,
): string {
  if (missing === 0) return 'Nobody is missing.';
  const mean = ({ meanChange }: PairedMeanChange): string =>
    meanChange === null ? 'unknown' : oneDecimal(meanChange);
  const range =
    `mean change ${mean(asAnswered)} as answered, ${mean(worstCase)} at worst, ${mean(bestCase)} at best, ` +
    `${mean(lastKnown)} with the last known`;
  return robust
    ? `The direction holds whatever the ${missing} missing would have said: ${range}.`
    : `The answer depends on the ${missing} who did not give one: ${range}.`;
}

/** −1, 0 or 1; 0 when the interval holds no change, or when too few answered to say. */
function direction({ n, interval95 }: PairedMeanChange): number {
  if (n < fewestForVerdict || interval95 === null) return 0;
  if (interval95.low > 0) return 1;
  return interval95.high < 0 ? -1 : 0;
}
