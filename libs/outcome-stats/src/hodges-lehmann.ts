import jStat from 'jstat';
import type { Finding, Interval } from './finding.js';
import { changesOf, type Pair } from './pair.js';
import { signedRankDistribution } from './signed-rank-distribution.js';
import { kthWalshAverage } from './walsh-average.js';
import { oneDecimal, spelled } from './wording.js';

export interface MedianChange extends Finding {
  readonly method: 'Hodges–Lehmann, signed rank interval';
  /** In the unit of the values; positive when `after` is larger. Null without a pair. */
  readonly medianChange: number | null;
  /** At least 95 %; null below six pairs, where no such interval exists. */
  readonly interval95: Interval | null;
  /** What the interval really covers, were there no ties: at least 0.95. */
  readonly achievedLevel: number | null;
}

/** Up to this many pairs the rank of the interval's ends is exact. */
const mostForExact = 50;

/**
 * The typical change, robust against outliers: the median of the means of all pairs of changes, each with itself too.
 *
 * Ties and zeros: every change counts, zeros too; the interval reads the distribution without ties, so with many ties
 * it covers more than it says.
 *
 * @param missing how many belong to the group but have no pair
 * @throws RangeError when a value is not finite
 * @source Hodges & Lehmann 1963, Ann Math Stat 34:598–611; Hollander & Wolfe, Nonparametric Statistical Methods,
 *   sections 3.2 and 3.3
 * @example hodgesLehmann([{ before: 1, after: 2 }, { before: 1, after: 4 }], 0).medianChange; // 2
 */
export function hodgesLehmann(pairs: readonly Pair[], missing: number): MedianChange {
  const sorted = changesOf(pairs).sort((a, b) => a - b);
  const n = sorted.length;
  const common = { method: 'Hodges–Lehmann, signed rank interval', n, missing } as const;
  if (n === 0) {
    const sentence = `Nobody can be compared; ${missing} missing.`;
    return { ...common, medianChange: null, interval95: null, achievedLevel: null, sentence };
  }
  const averages = (n * (n + 1)) / 2;
  const medianChange =
    (kthWalshAverage(sorted, Math.ceil(averages / 2)) +
      kthWalshAverage(sorted, Math.floor(averages / 2) + 1)) /
    2;
  const typical = `In ${n} people the typical change was ${oneDecimal(medianChange)}`;
  const end = n <= mostForExact ? exactEnd(n) : normalEnd(n);
  if (end === null) {
    const sentence = `${typical}; too few for a 95 % interval (${missing} missing).`;
    return { ...common, medianChange, interval95: null, achievedLevel: null, sentence };
  }
  const interval95 = {
    low: kthWalshAverage(sorted, end.k),
    high: kthWalshAverage(sorted, averages + 1 - end.k),
  };
  const sentence = `${typical} (95 % interval ${spelled(interval95)}); ${missing} missing.`;
  return { ...common, medianChange, interval95, achievedLevel: end.achievedLevel, sentence };
}

interface End {
  /** The interval runs from the k-th smallest average to the k-th largest. */
  readonly k: number;
  readonly achievedLevel: number;
}

/** The largest k whose interval still reaches 95 %. */
function exactEnd(n: number): End | null {
  const chance = signedRankDistribution(Array.from({ length: n }, (_, i) => i + 1));
  let end: End | null = null;
  let tail = 0;
  for (let k = 1; ; k += 1) {
    tail += chance[2 * (k - 1)] ?? 0;
    if (tail > 0.025) return end;
    end = { k, achievedLevel: 1 - 2 * tail };
  }
}

function normalEnd(n: number): End {
  const mean = (n * (n + 1)) / 4;
  const sd = Math.sqrt((n * (n + 1) * (2 * n + 1)) / 24);
  const k = Math.floor(mean - jStat.normal.inv(0.975, 0, 1) * sd);
  return { k, achievedLevel: 1 - 2 * jStat.normal.cdf((k - 0.5 - mean) / sd, 0, 1) };
}
