/** Before and after of the same person, in the same unit. */
export interface Pair {
  readonly before: number;
  readonly after: number;
}

/**
 * After minus before of each pair.
 *
 * @throws RangeError when a value is not finite: a missing answer is counted, never entered as a number
 * @example changesOf([{ before: 6, after: 2 }]); // [-4]
 */
export function changesOf(pairs: readonly Pair[]): number[] {
  return pairs.map(({ before, after }) => {
    if (!Number.isFinite(before) || !Number.isFinite(after)) {
      throw new RangeError('before and after must be numbers');
    }
    return after - before;
  });
}
