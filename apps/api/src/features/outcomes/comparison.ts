import {
  fewestForVerdict,
  groupDifference,
  meanInterval,
  summariseChanges,
  type Interval,
} from '@studio/outcome-stats';
import { pairsOf } from './measure-change.js';
import {
  measures,
  type ComparisonResponse,
  type Measure,
  type MeasureDifferenceResponse,
} from './review.dto.js';
import type { ReviewedSession } from './review.queries.js';

const notRandomised =
  'Not randomised: riders got what suited them, so the groups may differ in more than the change, and a difference is not proof that it came from there.';

/** How much more the group changed than the others. */
export function comparisonOf(
  sessions: readonly ReviewedSession[],
  others: readonly ReviewedSession[],
): ComparisonResponse {
  return {
    randomised: false,
    caution: notRandomised,
    others: others.length,
    measures: measures.map((measure) => differenceIn(measure, sessions, others)),
  };
}

function differenceIn(
  measure: Measure,
  sessions: readonly ReviewedSession[],
  others: readonly ReviewedSession[],
): MeasureDifferenceResponse {
  const [first, second] = [sessions, others].map((side) => {
    const pairs = pairsOf(measure, side);
    return summariseChanges(pairs, side.length - pairs.length);
  }) as [ReturnType<typeof summariseChanges>, ReturnType<typeof summariseChanges>];
  const estimate = groupDifference(first, second, 'unequal');
  const interval95 = meanInterval(estimate, 0.95);
  return {
    measure,
    method: 'difference of mean changes, Welch’s t interval',
    n: first.n,
    othersN: second.n,
    missing: estimate.missing,
    difference: estimate.value,
    interval95,
    sentence: sentence(first.n, second.n, estimate.value, interval95),
  };
}

function sentence(
  n: number,
  othersN: number,
  difference: number | null,
  interval95: Interval | null,
): string {
  if (difference === null || interval95 === null) {
    return `The groups cannot be compared: ${n} and ${othersN} with both values (not randomised).`;
  }
  const range = `${difference.toFixed(1)} (95 % interval ${interval95.low.toFixed(1)} to ${interval95.high.toFixed(1)})`;
  const groups = `${n} against ${othersN}, not randomised`;
  if (Math.min(n, othersN) < fewestForVerdict) {
    return `The changes differ by ${range}, too few to say more; ${groups}.`;
  }
  return interval95.low > 0 || interval95.high < 0
    ? `The changes differ by ${range}; ${groups}.`
    : `No difference can be told from chance: ${range}; ${groups}.`;
}
