export interface SignedRanks {
  /** Midranks of the sizes of the changes, in the order given. */
  readonly ranks: readonly number[];
  /** Of the positive changes. */
  readonly rankSum: number;
}

/**
 * @param changes none of them zero
 * @example signedRanks([-1, 3, 2]); // { ranks: [1, 3, 2], rankSum: 5 }
 */
export function signedRanks(changes: readonly number[]): SignedRanks {
  const ranks = midranks(changes.map(Math.abs));
  return { ranks, rankSum: ranks.reduce((sum, rank, i) => sum + ((changes[i] ?? 0) > 0 ? rank : 0), 0) };
}

/** Ranks from the smallest; equal values share the mean of their ranks. */
export function midranks(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  const rankOf = new Map<number, number>();
  for (let first = 0; first < sorted.length;) {
    const value = sorted[first] ?? 0;
    let last = first;
    while (sorted[last + 1] === value) last += 1;
    rankOf.set(value, (first + last) / 2 + 1);
    first = last + 1;
  }
  return values.map((value) => rankOf.get(value) ?? 0);
}
