/** What every answer of this library says about itself. */
export interface Finding {
  readonly method: string;
  /** People (or pairs of values) the answer rests on. */
  readonly n: number;
  /** Those who belong to the group and are not among the n. */
  readonly missing: number;
  /** The answer in plain words. */
  readonly sentence: string;
}

export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * Below this many people the library gives estimates and intervals, no tests and no verdicts: with five, the signed
 * rank test cannot go below p = 0.0625 whatever was observed.
 */
export const fewestForVerdict = 6;
