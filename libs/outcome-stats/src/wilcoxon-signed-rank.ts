import { approximateSignedRankP, type SignedRankP } from './approximate-signed-rank-p.js';
import { fewestForVerdict, type Finding } from './finding.js';
import { changesOf, type Pair } from './pair.js';
import { signedRankDistribution } from './signed-rank-distribution.js';
import { signedRanks } from './signed-ranks.js';
import { spelledP } from './wording.js';

export interface SignedRankTest extends Finding {
  readonly method:
    | 'Wilcoxon signed rank, exact'
    | 'Wilcoxon signed rank, normal approximation with continuity correction';
  /** Sum of the ranks of the positive changes; null without a verdict. */
  readonly rankSum: number | null;
  /** Pairs without any change; left out of the ranking. */
  readonly unchanged: number;
  readonly pTwoSided: number | null;
  /** Chance of a rank sum this large or larger, were there no change. */
  readonly pGreater: number | null;
  /** Chance of a rank sum this small or smaller. */
  readonly pLess: number | null;
}

/** Up to this many changed pairs every sign pattern is counted. */
const mostForExact = 50;

/**
 * Wilcoxon's signed rank test: do the changes lie around zero?
 *
 * Ties and zeros: unchanged pairs are left out (Wilcoxon's own rule), equal changes share the mean of their ranks, and
 * the exact p counts all sign patterns of the ranks found, ties included.
 *
 * @param missing how many belong to the group but have no pair
 * @returns p and rank sum are null below six people; when nobody changed every p is 1
 * @throws RangeError when a value is not finite
 * @source Wilcoxon 1945, Biometrics Bulletin 1:80–83; Hollander & Wolfe, Nonparametric Statistical Methods, section 3.1
 * @example wilcoxonSignedRank(pairs, 2).pTwoSided;
 */
export function wilcoxonSignedRank(pairs: readonly Pair[], missing: number): SignedRankTest {
  const n = pairs.length;
  const changes = changesOf(pairs).filter((change) => change !== 0);
  const unchanged = n - changes.length;
  const exact = changes.length <= mostForExact;
  const common = {
    method: exact
      ? 'Wilcoxon signed rank, exact'
      : 'Wilcoxon signed rank, normal approximation with continuity correction',
    n,
    missing,
    unchanged,
  } as const;
  if (n < fewestForVerdict) {
    const sentence = `Not tested: ${n} are too few to say (${missing} missing).`;
    return { ...common, rankSum: null, pTwoSided: null, pGreater: null, pLess: null, sentence };
  }
  const { ranks, rankSum } = signedRanks(changes);
  const p = exact ? exactP(ranks, rankSum) : approximateSignedRankP(ranks, rankSum, true);
  const told = p.pTwoSided < 0.05 ? 'more than chance' : 'no more than chance can do';
  return {
    ...common,
    rankSum,
    ...p,
    sentence: `Of ${n} people ${unchanged} did not change; the others changed by ${told} (${spelledP(p.pTwoSided)}); ${missing} missing.`,
  };
}

function exactP(ranks: readonly number[], rankSum: number): SignedRankP {
  const chance = signedRankDistribution(ranks);
  const at = Math.round(2 * rankSum);
  const pLess = chance.subarray(0, at + 1).reduce((sum, share) => sum + share, 0);
  const pGreater = chance.subarray(at).reduce((sum, share) => sum + share, 0);
  return { pTwoSided: Math.min(1, 2 * Math.min(pLess, pGreater)), pGreater, pLess };
}
