import jStat from 'jstat';

export interface SignedRankP {
  readonly pTwoSided: number;
  /** Chance of a rank sum this large or larger. */
  readonly pGreater: number;
  /** Chance of a rank sum this small or smaller. */
  readonly pLess: number;
}

/**
 * The large-sample p of a signed rank sum. The variance of ranks signed at random is ¼ of the sum of their squares,
 * ties included.
 *
 * @param ranks midranks of the sizes of the changes, unchanged pairs left out
 * @param rankSum of the positive changes
 * @param continuityCorrection `true` moves the sum half a rank towards its mean
 * @source Hollander & Wolfe, Nonparametric Statistical Methods, section 3.1
 * @example approximateSignedRankP([1, 2, 3, 4, 5, 6, 7, 8, 9], 40, false).pTwoSided; // 0.0381…
 */
export function approximateSignedRankP(
  ranks: readonly number[],
  rankSum: number,
  continuityCorrection: boolean,
): SignedRankP {
  const mean = ranks.reduce((sum, rank) => sum + rank, 0) / 2;
  const sd = Math.sqrt(ranks.reduce((sum, rank) => sum + rank ** 2, 0)) / 2;
  const correction = continuityCorrection ? 0.5 : 0;
  const below = (distance: number): number => jStat.normal.cdf(distance / sd, 0, 1);
  const pGreater = below(mean - rankSum + correction);
  const pLess = below(rankSum - mean + correction);
  return { pTwoSided: Math.min(1, 2 * Math.min(pLess, pGreater)), pGreater, pLess };
}
