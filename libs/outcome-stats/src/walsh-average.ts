/**
 * The k-th smallest of the n (n + 1) / 2 Walsh averages (xᵢ + xⱼ) / 2, i ≤ j, without listing them.
 *
 * Counts how many lie at or below a guess and halves the range until no number lies between its ends, so the answer is
 * one of the averages to the last bit.
 *
 * @param sorted ascending
 * @param k 1 – n (n + 1) / 2
 */
export function kthWalshAverage(sorted: readonly number[], k: number): number {
  let low = sorted[0] ?? 0;
  let high = sorted.at(-1) ?? 0;
  if (countUpTo(sorted, low) >= k) return low;
  for (;;) {
    const middle = low / 2 + high / 2;
    if (middle <= low || middle >= high) return high;
    if (countUpTo(sorted, middle) >= k) high = middle;
    else low = middle;
  }
}

function countUpTo(sorted: readonly number[], limit: number): number {
  let count = 0;
  let j = sorted.length - 1;
  for (let i = 0; i <= j; i += 1) {
    while (j >= i && ((sorted[i] ?? 0) + (sorted[j] ?? 0)) / 2 > limit) j -= 1;
    count += j - i + 1;
  }
  return count;
}
