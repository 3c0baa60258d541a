import type { Feel } from '@studio/database';
import { wilsonInterval, type Interval } from '@studio/outcome-stats';
import { distributionOf } from './distribution.js';
import type { FeelResponse, WalkingComfortResponse } from './review.dto.js';
import type { ReviewedSession } from './review.queries.js';

/** What is told only after the fit is counted, not judged. */
const unjudged = 'No threshold is published for it.';

/** How something feels, against before the fit as the riders remember it. */
export function feelOf(feels: readonly (Feel | null)[]): FeelResponse {
  const count = (...kinds: (Feel | null)[]): number => feels.filter((feel) => kinds.includes(feel)).length;
  const missing = count(null);
  const notTried = count('not_tried');
  const n = feels.length - missing - notTried;
  const better = shareOf(count('much_better', 'better'), n);
  const worse = shareOf(count('worse', 'much_worse'), n);
  const others = `${notTried} had not tried, ${missing} missing`;
  return {
    n,
    missing,
    notTried,
    muchBetter: count('much_better'),
    better: count('better'),
    same: count('same'),
    worse: count('worse'),
    muchWorse: count('much_worse'),
    shareBetter: better?.share ?? null,
    betterInterval95: better?.interval95 ?? null,
    shareWorse: worse?.share ?? null,
    worseInterval95: worse?.interval95 ?? null,
    sentence:
      better === null || worse === null
        ? `Nobody told who had tried it; ${others}.`
        : `Of ${n} who had tried, ${better.count} felt it better than before (${inWords(better)}) and ${worse.count} worse (${inWords(worse)}); ${others}. ${unjudged}`,
  };
}

interface Share {
  readonly count: number;
  readonly share: number;
  readonly interval95: Interval;
}

const shareOf = (count: number, n: number): Share | null =>
  n === 0 ? null : { count, share: count / n, interval95: wilsonInterval(count, n, false) };

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
const inWords = ({ share, interval95: { low, high } }: Share): string =>
  `${percent(share)}, 95 % interval ${percent(low)} to ${percent(high)}`;

export function walkingComfortOf(sessions: readonly ReviewedSession[]): WalkingComfortResponse {
  const values = sessions.flatMap(({ walkingComfort }) => walkingComfort ?? []);
  const after = distributionOf(values);
  const missing = sessions.length - values.length;
  const people = values.length === 1 ? '1 person' : `${values.length} people`;
  return {
    n: values.length,
    missing,
    after,
    sentence:
      after === null
        ? `Nobody told how walking in the cycling shoes is; ${missing} missing.`
        : `In ${people} walking in the cycling shoes was at ${after.mean.toFixed(1)} of 10 on average; ${missing} missing. It is not asked before a fit, so this tells no change. ${unjudged}`,
  };
}
