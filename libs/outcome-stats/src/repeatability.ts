import jStat from 'jstat';
import type { Finding } from './finding.js';
import { changesOf, type Pair } from './pair.js';
import { oneDecimal } from './wording.js';

export interface Repeatability extends Finding {
  readonly method: 'repeatability coefficient';
  /** 95 % of repeats lie within this of the first; null without a pair. */
  readonly coefficient: number | null;
}

/**
 * How far a repeat may lie from the first measurement, supposing no shift between them: unlike the minimal detectable
 * change, a shift common to all counts as error.
 *
 * @param missing how many belong to the group but have no pair
 * @throws RangeError when a value is not finite
 * @source Bland & Altman 1986, Lancet i:307–310, with 1.96 for their 2
 * @example repeatability([{ before: 712, after: 713 }, { before: 698, after: 696 }], 0).coefficient; // 3.0…
 */
export function repeatability(pairs: readonly Pair[], missing: number): Repeatability {
  const n = pairs.length;
  const common = { method: 'repeatability coefficient', n, missing } as const;
  if (n === 0) return { ...common, coefficient: null, sentence: `Nothing was repeated; ${missing} missing.` };
  const meanSquare = jStat.mean(changesOf(pairs).map((difference) => difference ** 2));
  const coefficient = jStat.normal.inv(0.975, 0, 1) * Math.sqrt(meanSquare);
  const sentence = `95 % of repeats lie within ${oneDecimal(coefficient)} of the first measurement (${n} pairs); ${missing} missing.`;
  return { ...common, coefficient, sentence };
}
