import type { Finding, Interval } from './finding.js';
import { wilsonInterval } from './wilson-interval.js';
import { percent } from './wording.js';

export interface ShareOfGroup {
  /** 0–1. */
  readonly share: number;
  readonly interval95: Interval;
}

export interface Responders extends Finding {
  readonly method: 'share of responders, Wilson interval';
  readonly responded: number;
  /** Of those who answered; null when nobody did. */
  readonly ofAnswered: ShareOfGroup | null;
  /** Of the whole group, were none of the missing a responder. */
  readonly worstCase: ShareOfGroup | null;
  /** Of the whole group, were all of the missing responders. */
  readonly bestCase: ShareOfGroup | null;
}

/**
 * How many of those who answered had a change that matters, and what the missing could make of it.
 *
 * @param responded 0–n
 * @param n those who answered
 * @param missing those of the group who did not
 * @throws RangeError when the counts are no such whole numbers
 * @source Newcombe 1998, Stat Med 17:857–872, method 3
 * @example responders(8, 10, 2).ofAnswered; // { share: 0.8, interval95: { low: 0.49…, high: 0.94… } }
 */
export function responders(responded: number, n: number, missing: number): Responders {
  const shares = {
    ofAnswered: shareOf(responded, n),
    worstCase: shareOf(responded, n + missing),
    bestCase: shareOf(responded + missing, n + missing),
  };
  return {
    method: 'share of responders, Wilson interval',
    n,
    missing,
    responded,
    ...shares,
    sentence: sentence(responded, n, missing, shares),
  };
}

function shareOf(count: number, n: number): ShareOfGroup | null {
  if (count === 0 && n === 0) return null;
  return { interval95: wilsonInterval(count, n, false), share: count / n };
}

function sentence(
  responded: number,
  n: number,
  missing: number,
  { ofAnswered, worstCase, bestCase }: Pick<Responders, 'ofAnswered' | 'worstCase' | 'bestCase'>,
): string {
  if (ofAnswered === null || worstCase === null || bestCase === null) {
    return `Nobody answered; ${missing} missing.`;
  }
  const { low, high } = ofAnswered.interval95;
  const known =
    `${responded} of ${n} changed by an amount that matters (${percent(ofAnswered.share)}, ` +
    `95 % interval ${percent(low)} to ${percent(high)})`;
  return missing === 0
    ? `${known}; nobody missing.`
    : `${known}; ${missing} missing, so of the whole group ${percent(worstCase.share)} to ${percent(bestCase.share)}.`;
}
