/** A result with its standard uncertainty (one standard deviation), both in the unit the name of the field says. */
export interface Uncertain {
  readonly value: number;
  readonly sd: number;
}

/**
 * Carry the measuring errors of independent inputs through a function to first order: the root of the summed
 * squares of (slope × error), each slope by a central difference half an error wide.
 *
 * @param inputs values by name
 * @param sds standard deviations by name; inputs without one are taken as exact
 * @param f the function; it may throw where a shifted input is impossible, and that is passed on
 * @returns the value at the inputs and its standard deviation, in the unit of `f`
 * @source JCGM 100:2008 (GUM), section 5.1.2, uncorrelated inputs
 * @check src/uncertainty: seeded Monte Carlo of 1500 draws
 * @tolerance 7 %
 * @example propagate({ a: 3, b: 4 }, { a: 0.1, b: 0.2 }, ({ a, b }) => a + b).sd; // 0.2236…
 */
export function propagate<Name extends string>(
  inputs: Readonly<Record<Name, number>>,
  sds: Readonly<Partial<Record<Name, number>>>,
  f: (inputs: Readonly<Record<Name, number>>) => number,
): Uncertain {
  const [sd = 0] = standardDeviations(inputs, sds, (shifted) => [f(shifted)]);
  return { value: f(inputs), sd };
}

/** The standard deviations alone, of several results that one function works out together. */
export function standardDeviations<Name extends string>(
  inputs: Readonly<Record<Name, number>>,
  sds: Readonly<Partial<Record<Name, number>>>,
  f: (inputs: Readonly<Record<Name, number>>) => readonly number[],
): number[] {
  const variances: number[] = [];
  for (const [name, sd] of Object.entries(sds) as [Name, number | undefined][]) {
    if (sd === undefined || sd === 0) continue;
    const above = f({ ...inputs, [name]: inputs[name] + sd / 2 });
    const below = f({ ...inputs, [name]: inputs[name] - sd / 2 });
    above.forEach((value, i) => {
      variances[i] = (variances[i] ?? 0) + (value - (below[i] ?? Number.NaN)) ** 2;
    });
  }
  return variances.map(Math.sqrt);
}
