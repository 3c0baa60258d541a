import { FitMathError } from '../errors.js';

/** The first unit of each quantity is the one this library keeps it in. Factors are to that unit. */
const factors = {
  length: { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 },
  mass: { kg: 1, g: 0.001, lb: 0.45359237 },
  power: { W: 1, kW: 1000 },
  angle: { deg: 1 },
} as const;

export type Quantity = keyof typeof factors;
export type UnitOf<Q extends Quantity> = keyof (typeof factors)[Q] & string;

/** The unit a quantity is kept in. */
export const keptIn = { length: 'mm', mass: 'kg', power: 'W', angle: 'deg' } as const satisfies {
  readonly [Q in Quantity]: UnitOf<Q>;
};

/** Every unit a quantity can be given in. */
export const unitsOf = Object.fromEntries(
  Object.entries(factors).map(([quantity, units]) => [quantity, Object.keys(units)]),
) as unknown as { readonly [Q in Quantity]: readonly UnitOf<Q>[] };

/**
 * A value of one unit in another unit of the same quantity.
 *
 * @param quantity what the value is: a length, a mass, a power or an angle
 * @returns the same in the unit `to`
 * @throws FitMathError `input.not-a-number` for a value that is none
 * @source international yard and pound agreement, 1959: the inch is 25.4 mm, the pound 0.45359237 kg, both exactly
 * @check src/quantities/read-quantity: undone, and through a third unit
 * @tolerance 1e-9
 * @example convertQuantity('length', 13.625, 'in', 'mm'); // 346.07…
 */
export function convertQuantity<Q extends Quantity>(
  quantity: Q,
  value: number,
  from: UnitOf<Q>,
  to: UnitOf<Q>,
): number {
  if (!Number.isFinite(value)) throw new FitMathError('input.not-a-number', 'value', `a number of ${from}`);
  return value * unitRatio(quantity, from, to);
}

/** How many of the unit `to` go to one of `from`. */
export function unitRatio(quantity: Quantity, from: string, to: string): number {
  const units: Readonly<Record<string, number>> = factors[quantity];
  return (units[from] ?? Number.NaN) / (units[to] ?? Number.NaN);
}
