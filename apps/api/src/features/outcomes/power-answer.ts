import {
  fewestForVerdict,
  nonInferiorityOfShare,
  pairedMeanChange,
  type Interval,
  type NonInferiority,
} from '@studio/outcome-stats';
import { pairsOf } from './measure-change.js';
import { signed } from './signed.js';
import type { PowerAnswerResponse } from './review.dto.js';
import type { ReviewedSession } from './review.queries.js';

/** Was 20-minute power lost? Shares are of the group's mean before, which is what the margin is a share of. */
export function powerAnswer(
  sessions: readonly ReviewedSession[],
  { groupInWords, powerMarginPercent }: { groupInWords: string; powerMarginPercent: number },
): PowerAnswerResponse {
  const pairs = pairsOf('power_20_min_w', sessions);
  const missing = sessions.length - pairs.length;
  const about = {
    question: `Did ${groupInWords} lose 20-minute power, by more than ${powerMarginPercent} %?`,
    method: 'non-inferiority, one-sided 95 % bound by Student’s t',
    marginPercent: powerMarginPercent,
    n: pairs.length,
    missing,
  };
  if (pairs.length === 0) {
    return {
      ...about,
      answer: `It cannot be said: of ${sessions.length} ${groupInWords} none has a value before and after.`,
      verdict: 'cannot tell',
      meanChangePercent: null,
      interval95Percent: null,
      lowerBound95Percent: null,
      upperBound95Percent: null,
    };
  }
  const found = nonInferiorityOfShare(pairs, missing, powerMarginPercent / 100);
  // The margin is this share of the mean before.
  const percentOf = (watts: number): number => (watts / found.margin) * powerMarginPercent;
  const { interval95 } = pairedMeanChange(pairs, missing);
  const shares = {
    meanChangePercent: percentOf(found.meanChange ?? NaN),
    interval95Percent: interval95 && { low: percentOf(interval95.low), high: percentOf(interval95.high) },
    lowerBound95Percent: found.lowerBound95 === null ? null : percentOf(found.lowerBound95),
    upperBound95Percent: found.upperBound95 === null ? null : percentOf(found.upperBound95),
  };
  return {
    ...about,
    ...shares,
    verdict: found.verdict,
    answer: [
      sentence(groupInWords, found, shares, powerMarginPercent),
      missing === 0
        ? 'Nobody is missing.'
        : `${missing} of ${sessions.length} have no value before and after.`,
      'Nobody was randomised.',
    ].join(' '),
  };
}

const told = (percent: number): string => `${signed(percent)} %`;

function sentence(
  group: string,
  { n, verdict }: NonInferiority,
  shares: Pick<
    PowerAnswerResponse,
    'meanChangePercent' | 'interval95Percent' | 'lowerBound95Percent' | 'upperBound95Percent'
  >,
  margin: number,
): string {
  const interval = (range: Interval | null): string =>
    range === null ? '' : ` (95 % interval ${told(range.low)} to ${told(range.high)})`;
  const change = `in ${n} ${group} it changed by ${told(shares.meanChangePercent ?? NaN)} on average${interval(shares.interval95Percent)}`;
  switch (verdict) {
    case 'not worse': {
      const smaller = (shares.interval95Percent?.high ?? 0) < 0 ? ', but a smaller loss is likely' : '';
      return `No: ${change}; a loss of more than ${margin} % is ruled out (with 95 % confidence no lower than ${told(shares.lowerBound95Percent ?? NaN)})${smaller}.`;
    }
    case 'worse':
      return `Yes: ${change}; a loss of more than ${margin} % is shown (with 95 % confidence no higher than ${told(shares.upperBound95Percent ?? NaN)}).`;
    case 'not shown':
      return `It cannot be said: ${change}; a loss of more than ${margin} % is neither shown nor ruled out (with 95 % confidence no lower than ${told(shares.lowerBound95Percent ?? NaN)}).`;
    case 'cannot tell':
      return n < fewestForVerdict
        ? `It cannot be said: ${change}, and ${n} are too few for an answer.`
        : `It cannot be said: ${change}, all by the same, so the spread is unknown.`;
  }
}
