import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';
import type { LegSegments } from './leg-segments.js';
import { statureTables, type StatureTable } from './stature-tables.js';

export interface StatureInput {
  /** Standing, barefoot. 1200–2200. */
  readonly statureMm: number;
  readonly table: StatureTable['id'];
  /** Insole, sole, cleat and pedal: foot to spindle, sole level. 0–120. */
  readonly underFootMm: number;
}

/** How much a segment differs between people of one stature, as a share of it. House rule. */
const betweenPeople = 0.04;
/** Ankle at a quarter of the foot, metatarsal line at three quarters: modelling convention, not a measured mean. */
const leverOfFoot = 0.5;

const fromStature: Caution = {
  code: 'from-stature',
  text: 'Guessed from stature, not measured: good enough to try a calculation, not to move a saddle by. Measure the leg.',
};

/**
 * The fall-back where a leg was not measured: its segments as one published table's shares of stature.
 *
 * The error of each holds what the two tables differ by and 4 % of the segment between people (house rule), as squares.
 * The foot lever is that of a cleat under the line of the metatarsal heads.
 *
 * @throws FitMathError naming the input outside its range
 * @source `statureTables`; the foot lever as half the foot's length is a modelling convention
 * @check outside/segments: Drillis–Contini closure; ANSUR II ratios; de Leva 1996 (secondary)
 * @tolerance exact; 0.5 %; the stated error
 * @example segmentsFromStature({ statureMm: 1750, table: 'drillis-contini', underFootMm: 42 }).thighMm;
 *   // { value: 428.75, sd: 27.07… }
 */
export function segmentsFromStature({ statureMm, table, underFootMm }: StatureInput): LegSegments {
  requireRange('statureMm', statureMm, 1200, 2200);
  requireRange('underFootMm', underFootMm, 0, 120);
  const [first, second] = statureTables;
  const [asked, other] = table === first.id ? [first, second] : [second, first];
  const share = (of: (one: StatureTable) => number): Uncertain => {
    const value = of(asked) * statureMm;
    return { value, sd: Math.hypot(value - of(other) * statureMm, betweenPeople * value) };
  };
  const ankleHeight = share((one) => one.ankleHeight);
  return {
    formulaVersion,
    origin: 'stature',
    thighMm: share((one) => one.thigh),
    shankMm: share((one) => one.shank),
    footLeverMm: share((one) => leverOfFoot * one.footLength),
    ankleAboveSpindleMm: { value: ankleHeight.value + underFootMm, sd: ankleHeight.sd },
    cautions: [fromStature],
  };
}
