import type { Caution } from '../cautions.js';
import { FitMathError } from '../errors.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import { propagate, type Uncertain } from '../uncertainty.js';

/** What a published proportion can be asked with; one that lacks an input is left out. */
export interface CrankInputs {
  /** Greater trochanter to the floor, standing. 500–1300. */
  readonly legLengthMm?: number;
  /** Knee joint line to the malleolus. 200–700. */
  readonly tibiaLengthMm?: number;
}

export type CrankInputName = keyof CrankInputs;

export interface CrankProportion {
  readonly id: 'leg-0.20' | 'tibia-0.41' | 'leg-and-tibia';
  readonly uses: readonly CrankInputName[];
  readonly source: string;
  /** Bottom bracket to pedal spindle. */
  readonly lengthMm: (inputs: Readonly<Record<CrankInputName, number>>) => number;
  /** Standard error of the publication’s own fit; null when none is given. */
  readonly fitErrorMm: number | null;
}

export const crankProportions: readonly CrankProportion[] = [
  {
    id: 'leg-0.20',
    uses: ['legLengthMm'],
    source:
      'Martin & Spirduso 2001, Eur J Appl Physiol 84:413–418: 20 % of leg length, wording from memory; landmarks of leg length not seen, trochanter to floor taken',
    lengthMm: ({ legLengthMm }) => 0.2 * legLengthMm,
    fitErrorMm: null,
  },
  {
    id: 'tibia-0.41',
    uses: ['tibiaLengthMm'],
    source:
      'Martin & Spirduso 2001, Eur J Appl Physiol 84:413–418: 41 % of tibia length, wording from memory; landmarks not seen',
    lengthMm: ({ tibiaLengthMm }) => 0.41 * tibiaLengthMm,
    fitErrorMm: null,
  },
  {
    id: 'leg-and-tibia',
    uses: ['legLengthMm', 'tibiaLengthMm'],
    source:
      'Too & Williams: 238 − 0.25 × total leg + 0.3 × lower leg, ± 22 mm, for peak power sitting upright',
    lengthMm: ({ legLengthMm, tibiaLengthMm }) => 238 - 0.25 * legLengthMm + 0.3 * tibiaLengthMm,
    fitErrorMm: 22,
  },
];

export interface CrankRow {
  readonly proportion: CrankProportion['id'];
  readonly source: string;
  /** The error holds that of measuring and, where one is published, that of the fit. */
  readonly crankLengthMm: Uncertain;
}

export interface CrankComparison {
  readonly formulaVersion: string;
  readonly rows: readonly CrankRow[];
  readonly leftOut: readonly {
    readonly proportion: CrankProportion['id'];
    readonly missing: readonly CrankInputName[];
  }[];
  readonly cautions: readonly Caution[];
}

const ranges: Readonly<Record<CrankInputName, readonly [number, number]>> = {
  legLengthMm: [500, 1300],
  tibiaLengthMm: [200, 700],
};
/** Standard deviation of one careful reading. House rule. */
const usualErrors = { legLengthMm: 8, tibiaLengthMm: 8 };

const hardlyMatters: Caution = {
  code: 'length-hardly-matters-for-power',
  text: 'Sprint power did not differ between cranks of 145, 170 and 195 mm (Martin & Spirduso 2001, 16 riders), nor gross efficiency within 5 mm of the rider’s own (Ferrer-Roca et al. 2017, 12 riders): room at hip and knee is the better reason.',
};

/**
 * The crank lengths that published proportions give, side by side. None is called the answer.
 *
 * @returns mm, bottom bracket to pedal spindle
 * @throws FitMathError naming the input outside its range, or `inputs` when nothing was given
 * @source `crankProportions`
 * @check outside/cranks: proportions (from memory) at the survey’s mean leg
 * @tolerance 0.001 mm
 * @example compareCrankLengths({ legLengthMm: 882.7 }).rows[0]?.crankLengthMm; // { value: 176.5…, sd: 1.6… }
 */
export function compareCrankLengths(inputs: CrankInputs): CrankComparison {
  for (const [name, [minimum, maximum]] of Object.entries(ranges) as [CrankInputName, [number, number]][]) {
    if (inputs[name] !== undefined) requireRange(name, inputs[name], minimum, maximum);
  }
  const missingOf = ({ uses }: CrankProportion) => uses.filter((name) => inputs[name] === undefined);
  const known = {
    legLengthMm: inputs.legLengthMm ?? Number.NaN,
    tibiaLengthMm: inputs.tibiaLengthMm ?? Number.NaN,
  };
  const rows = crankProportions
    .filter((proportion) => missingOf(proportion).length === 0)
    .map(({ id, source, uses, lengthMm, fitErrorMm }): CrankRow => {
      const sds = Object.fromEntries(uses.map((name) => [name, usualErrors[name]]));
      const { value, sd } = propagate(known, sds, lengthMm);
      return { proportion: id, source, crankLengthMm: { value, sd: Math.hypot(sd, fitErrorMm ?? 0) } };
    });
  if (rows.length === 0) {
    throw new FitMathError('input.not-a-number', 'inputs', 'legLengthMm or tibiaLengthMm at least');
  }
  return {
    formulaVersion,
    rows,
    leftOut: crankProportions
      .map((proportion) => ({ proportion: proportion.id, missing: missingOf(proportion) }))
      .filter(({ missing }) => missing.length > 0),
    cautions: [hardlyMatters],
  };
}
