import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import { footHardware } from './foot-hardware.js';

/** What sets one foot out from the middle of the bike. */
export interface FootStance {
  /** Crank arm's outer face to the middle of the pedal, shoulder tight against the arm. 30–120. */
  readonly axleMm: number;
  /** Washers between pedal and arm. 0–4. */
  readonly washersMm: number;
  /** Middle of the foot outside the middle of the pedal, by the cleat; negative = inside. −15–15. */
  readonly footOutsidePedalMm: number;
  /** How much farther the cleat could still let the foot come in, and go out. 0–10 each. */
  readonly sidePlayMm: { readonly inwards: number; readonly outwards: number };
}

export interface StanceInput {
  /** Outer face to outer face of the crank arms at the pedal eyes. 100–250. */
  readonly treadMm: number;
  readonly left: FootStance;
  readonly right: FootStance;
}

export interface Stance {
  readonly formulaVersion: string;
  /** Middle of each foot from the middle of the bike; the bottom bracket taken to be centred. */
  readonly leftMm: number;
  readonly rightMm: number;
  readonly widthMm: number;
}

/**
 * How far apart the feet stand on the pedals.
 *
 * @returns mm, middle of the foot to middle of the foot, and each from the middle of the bike
 * @throws FitMathError naming the side and the input outside its range
 * @source sum of what lies between; common practice, no source
 * @check src/cleats/feet: sums by hand
 * @tolerance exact
 * @example stance({ treadMm: 150, left: { axleMm: 53, washersMm: 0, footOutsidePedalMm: 0, sidePlayMm: { inwards: 2,
 *   outwards: 2 } }, right: { axleMm: 53, washersMm: 1, footOutsidePedalMm: -2, sidePlayMm: { inwards: 0,
 *   outwards: 4 } } }).widthMm; // 255
 */
export function stance(input: StanceInput): Stance {
  const leftMm = footFromMiddle(input, 'left');
  const rightMm = footFromMiddle(input, 'right');
  return { formulaVersion, leftMm, rightMm, widthMm: leftMm + rightMm };
}

export interface StanceOption {
  /** The id of a `FootHardware`, or `cleat_side_play`. */
  readonly part: string;
  /** Whether it alone brings the foot there within half a millimetre. */
  readonly reaches: boolean;
  /** How far the foot goes with it, outwards positive. */
  readonly movesOutMm: number;
  /** Wanted less found; positive = still too far in. */
  readonly leftOverMm: number;
  readonly cautions: readonly Caution[];
}

/**
 * The parts by which one foot can be brought to a wanted distance from the middle of the bike, one at a time, what is
 * left of the cleat's side play first.
 *
 * @param wantedMm middle of the foot from the middle of the bike. 80–220
 * @throws FitMathError naming the side and the input outside its range
 * @source `footHardware`; common practice, no source
 * @check src/cleats/feet: sums by hand
 * @tolerance 1e-9 mm
 * @example stanceOptions({ treadMm: 150, left: { axleMm: 53, washersMm: 0, footOutsidePedalMm: 0, sidePlayMm:
 *   { inwards: 2, outwards: 2 } }, right: { axleMm: 53, washersMm: 0, footOutsidePedalMm: 0, sidePlayMm: { inwards: 2,
 *   outwards: 2 } } }, 'left', 129.5).options.map(({ leftOverMm }) => leftOverMm); // [0, 0, -2.5, -14.5]
 */
export function stanceOptions(
  input: StanceInput,
  side: 'left' | 'right',
  wantedMm: number,
): {
  readonly formulaVersion: string;
  readonly asksOutMm: number;
  readonly options: readonly StanceOption[];
} {
  requireRange('wantedMm', wantedMm, 80, 220);
  const asksOutMm = wantedMm - footFromMiddle(input, side);
  const { inwards, outwards } = input[side].sidePlayMm;
  const option = (
    part: StanceOption['part'],
    least: number,
    greatest: number,
    cautions: readonly Caution[],
  ): StanceOption => {
    const movesOutMm = Math.min(greatest, Math.max(least, asksOutMm));
    const leftOverMm = asksOutMm - movesOutMm;
    return { part, reaches: Math.abs(leftOverMm) <= 0.5, movesOutMm, leftOverMm, cautions };
  };
  return {
    formulaVersion,
    asksOutMm,
    options: [
      option('cleat_side_play', -inwards, outwards, []),
      ...footHardware
        .filter(({ moves }) => moves === 'stance')
        .map(({ id, by: [least, greatest], cautions }) => option(id, least, greatest, cautions)),
    ],
  };
}

function footFromMiddle({ treadMm, ...sides }: StanceInput, side: 'left' | 'right'): number {
  const foot = sides[side];
  requireRange('treadMm', treadMm, 100, 250);
  requireRange(`${side}.axleMm`, foot.axleMm, 30, 120);
  requireRange(`${side}.washersMm`, foot.washersMm, 0, 4);
  requireRange(`${side}.footOutsidePedalMm`, foot.footOutsidePedalMm, -15, 15);
  requireRange(`${side}.sidePlayMm.inwards`, foot.sidePlayMm.inwards, 0, 10);
  requireRange(`${side}.sidePlayMm.outwards`, foot.sidePlayMm.outwards, 0, 10);
  return treadMm / 2 + foot.axleMm + foot.washersMm + foot.footOutsidePedalMm;
}
