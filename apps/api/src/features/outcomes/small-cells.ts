/** Counts and results of fewer people than this do not leave the house. Common practice in statistics, no source. */
export const fewestShown = 5;

/**
 * Which of several counts that add up to a total shown elsewhere may be shown: none from 1 to 4, and never all but
 * one, since that one could be worked out.
 *
 * @returns the counts, null where hidden
 * @example hideSmallCounts([9, 2, 0, 7]); // [9, null, 0, null]
 */
export function hideSmallCounts(counts: readonly number[]): (number | null)[] {
  const hidden = counts.map((count) => count > 0 && count < fewestShown);
  if (hidden.filter(Boolean).length === 1) {
    const shown = counts.flatMap((count, index) => (hidden[index] === true ? [] : [{ count, index }]));
    const next =
      shown.filter(({ count }) => count > 0).sort((one, other) => one.count - other.count)[0] ?? shown[0];
    if (next) hidden[next.index] = true;
  }
  return counts.map((count, index) => (hidden[index] === true ? null : count));
}
