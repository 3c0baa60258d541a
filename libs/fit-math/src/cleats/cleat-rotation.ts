import { radiansOf } from '../angles.js';
import type { Caution } from '../cautions.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';

export interface CleatRotationInput {
  /** Foot to the direction of travel as the rider holds it by nature, toe out positive. −30–40. */
  readonly toeOutDeg: number;
  /** How far the cleat can be turned on the sole to either side. 0–30. */
  readonly cleatTurnsDeg: number;
  /** Whole float of cleat and pedal, both ways together. 0–30. */
  readonly floatDeg: number;
  /** Along the sole, spindle back to the heel end of the shoe. 50–350. */
  readonly heelBehindSpindleMm: number;
}

export interface CleatRotation {
  readonly formulaVersion: string;
  /** Foot with the cleat as near as it can be turned to put the float's middle there. Toe out positive. */
  readonly floatMiddleDeg: number;
  /** Float left from the foot's own angle to each end; negative = the foot is held that much away from its own angle. */
  readonly freeToeOutDeg: number;
  readonly freeToeInDeg: number;
  /** Whether the foot's own angle lies within the float. */
  readonly reaches: boolean;
  /** How far the heel comes towards the bike against a foot that points straight ahead; negative = away. */
  readonly heelInMm: number;
  readonly cautions: readonly Caution[];
}

const clearance: Caution = {
  code: 'heel-clearance',
  text: 'The heel comes in: turn the crank by hand and check its clearance to arm and chainstay.',
};
const outOfFloat: Caution = {
  code: 'held-away',
  text: 'The cleat cannot be turned far enough: the foot is held away from its own angle. Another cleat or pedal.',
};
const noFloat: Caution = {
  code: 'no-float',
  text: 'Without float the foot is held at one angle through the whole turn: set it by the riding foot and look again.',
};

/**
 * How the cleat is turned so that the foot has its own angle in the middle of the float.
 *
 * @returns degrees, toe out positive; the heel's way in mm
 * @throws FitMathError naming the input outside its range
 * @source planar geometry about the spindle; the middle of the float as the aim: common practice, no source
 * @check src/cleats/feet: by hand; both ends share the float
 * @tolerance 1e-9
 * @example cleatRotation({ toeOutDeg: 10, cleatTurnsDeg: 7, floatDeg: 9, heelBehindSpindleMm: 200 }).freeToeOutDeg; // 1.5
 */
export function cleatRotation(input: CleatRotationInput): CleatRotation {
  const toeOutDeg = requireRange('toeOutDeg', input.toeOutDeg, -30, 40);
  const cleatTurnsDeg = requireRange('cleatTurnsDeg', input.cleatTurnsDeg, 0, 30);
  const floatDeg = requireRange('floatDeg', input.floatDeg, 0, 30);
  const heelBehindSpindleMm = requireRange('heelBehindSpindleMm', input.heelBehindSpindleMm, 50, 350);
  const floatMiddleDeg = Math.min(cleatTurnsDeg, Math.max(-cleatTurnsDeg, toeOutDeg));
  const freeToeOutDeg = floatMiddleDeg + floatDeg / 2 - toeOutDeg;
  const freeToeInDeg = toeOutDeg - (floatMiddleDeg - floatDeg / 2);
  const reaches = freeToeOutDeg >= 0 && freeToeInDeg >= 0;
  const heelInMm = heelBehindSpindleMm * Math.sin(radiansOf(toeOutDeg));
  return {
    formulaVersion,
    floatMiddleDeg,
    freeToeOutDeg,
    freeToeInDeg,
    reaches,
    heelInMm,
    cautions: [
      ...(reaches ? [] : [outOfFloat]),
      ...(floatDeg === 0 ? [noFloat] : []),
      ...(heelInMm > 0 ? [clearance] : []),
    ],
  };
}
