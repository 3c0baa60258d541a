import jStat from 'jstat';
import { changesOf, type Pair } from './pair.js';

/** All that the t methods need to know of a group; it can be kept in a table and summed up later. */
export interface ChangeSummary {
  readonly n: number;
  readonly missing: number;
  /** Of after − before; null without a pair. */
  readonly mean: number | null;
  /** Of after − before, divisor n − 1; null below two pairs. */
  readonly standardDeviation: number | null;
}

/**
 * @param missing how many belong to the group but have no pair
 * @throws RangeError when a value is not finite
 * @example summariseChanges([{ before: 6, after: 2 }, { before: 5, after: 3 }], 1); // mean -3, standardDeviation 1.41…
 */
export function summariseChanges(pairs: readonly Pair[], missing: number): ChangeSummary {
  const changes = changesOf(pairs);
  const n = changes.length;
  return {
    n,
    missing,
    mean: n === 0 ? null : jStat.mean(changes),
    standardDeviation: n < 2 ? null : jStat.stdev(changes, true),
  };
}
