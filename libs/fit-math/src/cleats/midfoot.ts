import { requireRange } from '../require-range.js';

/**
 * The midfoot line of a shoe: half its outer length.
 *
 * @param shoeOuterLengthMm heel end to nose. 150–400
 * @returns distance from the heel end of the shoe, mm
 * @source common practice, no source
 * @check outside/cleat-plan: lies well behind the ball of the survey’s mean foot
 * @tolerance range
 * @example midfootFromHeelMm(290); // 145
 */
export function midfootFromHeelMm(shoeOuterLengthMm: number): number {
  return requireRange('shoe.outerLengthMm', shoeOuterLengthMm, 150, 400) / 2;
}
