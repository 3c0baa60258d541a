import jStat from 'jstat';

export interface Pair {
  readonly before: number;
  readonly after: number;
}

export interface PairedMeanChange {
  readonly method: 'paired mean difference, t interval';
  /** Pairs with both values. */
  readonly n: number;
  /** Those of whom one value or both are not known. */
  readonly missing: number;
  /** Mean of after − before; null without a pair. */
  readonly meanChange: number | null;
  /** 95 % interval of the mean change; null below two pairs. */
  readonly interval95: { readonly low: number; readonly high: number } | null;
  readonly sentence: string;
}

/**
 * The mean change from before to after with its 95 % interval by Student's t.
 *
 * @param pairs after and before of the same person
 * @param missing how many belong to the group but have no pair
 * @returns in the unit of the values; positive when `after` is larger
 * @throws RangeError when a value is not finite
 * @source Student 1908, Biometrika 6:1–25
 * @example pairedMeanChange([{ before: 6, after: 2 }, { before: 5, after: 3 }, { before: 7, after: 4 }], 1).meanChange; // -3
 */
export function pairedMeanChange(pairs: readonly Pair[], missing: number): PairedMeanChange {
  const changes = pairs.map(({ before, after }) => {
    if (!Number.isFinite(before) || !Number.isFinite(after)) throw new RangeError('before and after must be numbers');
    return after - before;
  });
  const n = changes.length;
  const method = 'paired mean difference, t interval';
  if (n === 0) {
    return { method, n, missing, meanChange: null, interval95: null, sentence: `Nobody can be compared; ${missing} missing.` };
  }
  const mean = changes.reduce((sum, change) => sum + change, 0) / n;
  if (n === 1) {
    const sentence = `One person changed by ${mean.toFixed(1)}; that says nothing about others (${missing} missing).`;
    return { method, n, missing, meanChange: mean, interval95: null, sentence };
  }
  const variance = changes.reduce((sum, change) => sum + (change - mean) ** 2, 0) / (n - 1);
  const margin = jStat.studentt.inv(0.975, n - 1) * Math.sqrt(variance / n);
  const interval95 = { low: mean - margin, high: mean + margin };
  const range = `${interval95.low.toFixed(1)} to ${interval95.high.toFixed(1)}`;
  const sentence =
    interval95.low > 0 || interval95.high < 0
      ? `In ${n} people the mean changed by ${mean.toFixed(1)} (95 % interval ${range}); ${missing} missing.`
      : `In ${n} people no change can be told from chance: mean ${mean.toFixed(1)} (95 % interval ${range}); ${missing} missing.`;
  return { method, n, missing, meanChange: mean, interval95, sentence };
}
