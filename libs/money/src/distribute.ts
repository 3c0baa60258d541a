import { minorUnits, safeNumber } from './exact.js';

/**
 * Share an amount out in proportion to weights, to the minor unit and without losing one: each share is rounded towards
 * zero, and what is left goes, a unit each, to those cut short the most (the first of equals). The method of largest
 * remainders; house rule, since EN 16931 leaves it open how an allowance is shared.
 *
 * @param amountMinor whole number of minor units, may be negative
 * @param weights whole numbers, none negative; when all are 0 the amount must be 0
 * @returns shares in the order of the weights; they add up to the amount
 * @throws RangeError for an amount or weight that is no safe whole number, a negative weight, or nobody to bear the amount
 * @example distribute(100, [1, 1, 1]) // [34, 33, 33]
 */
export function distribute(amountMinor: number, weights: readonly number[]): number[] {
  const amount = minorUnits('amountMinor', amountMinor);
  const exact = weights.map((weight) => minorUnits('weight', weight));
  if (exact.some((weight) => weight < 0n)) throw new RangeError('weights must not be negative');
  const whole = exact.reduce((sum, weight) => sum + weight, 0n);
  if (whole === 0n) {
    if (amount !== 0n) throw new RangeError('an amount needs somebody to bear it');
    return weights.map(() => 0);
  }
  const sign = amount < 0n ? -1n : 1n;
  const shares = exact.map((weight, index) => {
    const product = amount * sign * weight;
    return { index, units: product / whole, cut: product % whole };
  });
  const left = Number(amount * sign - shares.reduce((sum, { units }) => sum + units, 0n));
  const mostCut = [...shares].sort((one, other) => Number(other.cut - one.cut) || one.index - other.index);
  for (const share of mostCut.slice(0, left)) share.units += 1n;
  return shares.map(({ units }) => safeNumber(units * sign));
}
