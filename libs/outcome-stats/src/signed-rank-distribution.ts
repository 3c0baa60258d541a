/**
 * In how many of the 2^n ways to sign the ranks the positive ones add up to each sum.
 *
 * @param ranks midranks: multiples of ½, so that twice a rank is whole
 * @returns at index s the share of sign patterns whose positive ranks add up to s / 2
 */
export function signedRankDistribution(ranks: readonly number[]): Float64Array {
  const doubled = ranks.map((rank) => Math.round(2 * rank));
  const chance = new Float64Array(doubled.reduce((sum, rank) => sum + rank, 0) + 1);
  chance[0] = 1;
  let reached = 0;
  for (const rank of doubled) {
    reached += rank;
    for (let sum = reached; sum >= 0; sum -= 1) {
      const without = chance[sum] ?? 0;
      const withRank = sum >= rank ? (chance[sum - rank] ?? 0) : 0;
      chance[sum] = (without + withRank) / 2;
    }
  }
  return chance;
}
