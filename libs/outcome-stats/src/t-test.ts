import jStat from 'jstat';
import { fitForVerdict, type Estimate, type MeasuredEstimate } from './estimate.js';
import type { Finding } from './finding.js';
import { spelledP } from './wording.js';

export interface TTest extends Finding {
  readonly method: 't test';
  readonly t: number | null;
  readonly degreesOfFreedom: number;
  /** Chance of a value this far from `against` in either direction, were `against` true. */
  readonly pTwoSided: number | null;
  /** The same for a value this far below. */
  readonly pLess: number | null;
  /** The same for a value this far above. */
  readonly pGreater: number | null;
}

/**
 * Student's t test of a mean change, or of a difference between groups.
 *
 * @param against the value asked about, in the unit of the estimate; 0 asks whether anything changed
 * @returns t and p are null below six people or without spread
 * @source Student 1908, Biometrika 6:1–25
 * @example tTest(pairedEstimate({ n: 8, missing: 0, mean: 2, standardDeviation: 6.505 }), 0).pTwoSided; // 0.41…
 */
export function tTest(estimate: Estimate, against: number): TTest {
  const { n, missing, degreesOfFreedom } = estimate;
  const common = { method: 't test', n, missing, degreesOfFreedom } as const;
  const measured = fitForVerdict(estimate);
  if (typeof measured === 'string') {
    const sentence = `Not tested: ${measured} (${missing} missing).`;
    return { ...common, t: null, pTwoSided: null, pLess: null, pGreater: null, sentence };
  }
  const tested = testAgainst(measured, against);
  const told = tested.pTwoSided < 0.05 ? 'differs by more than chance' : 'cannot be told';
  const sentence = `In ${n} people the mean ${told} from ${against} (${spelledP(tested.pTwoSided)}); ${missing} missing.`;
  return { ...common, ...tested, sentence };
}

/** t and its three p where the spread is known. */
export function testAgainst(
  { value, standardError, degreesOfFreedom }: MeasuredEstimate,
  against: number,
): Record<'t' | 'pTwoSided' | 'pLess' | 'pGreater', number> {
  const t = (value - against) / standardError;
  const tail = jStat.studentt.cdf(-Math.abs(t), degreesOfFreedom);
  return { t, pTwoSided: 2 * tail, pLess: t < 0 ? tail : 1 - tail, pGreater: t < 0 ? 1 - tail : tail };
}
