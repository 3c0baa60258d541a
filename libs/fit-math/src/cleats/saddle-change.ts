import { hipForKneeFlexion, type SaddlePath } from '../leg-chain/hip-for-knee-flexion.js';
import { shiftedFootPitch, type FootPitch } from '../leg-chain/foot-pitch.js';
import type { Leg } from '../leg-chain/leg.js';
import { requireRange } from '../require-range.js';
import { propagate, type Uncertain } from '../uncertainty.js';

export interface RiderOnBike {
  readonly leg: Leg;
  readonly footPitch: FootPitch;
  /** Knee flexion at the straightest point that is to be kept. 5–120. */
  readonly minimumKneeFlexionDeg: number;
  /** Direction the saddle moves in, to the horizontal. 50–90. */
  readonly seatTubeAngleDeg: number;
}

/** Standard deviations of what was measured, one by one. */
export interface RiderErrors {
  readonly thighMm: number;
  readonly shankMm: number;
  readonly footLeverMm: number;
  readonly ankleAboveSpindleMm: number;
  readonly footPitchDeg: number;
  readonly minimumKneeFlexionDeg: number;
  readonly seatTubeAngleDeg: number;
}

/** House rule: tape and goniometer on a dressed rider, one fitter. To be replaced by the errors of one's own repeats. */
export const usualErrors: RiderErrors = {
  thighMm: 8,
  shankMm: 8,
  footLeverMm: 4,
  ankleAboveSpindleMm: 4,
  footPitchDeg: 3,
  minimumKneeFlexionDeg: 3,
  seatTubeAngleDeg: 0.5,
};

/** What changes between hip and crank; absent = as it is. */
export interface FootAndCrankChange {
  /** Cleat moved back along the sole, negative = forward. −100–150. */
  readonly cleatBackMm?: number;
  /** Crank longer, negative = shorter. −60–60. */
  readonly crankLongerMm?: number;
  /** Ankle higher above the spindle by a shim, a thicker sole or pedal, negative = lower. −50–50. */
  readonly ankleHigherMm?: number;
}

/**
 * The change of saddle height, along the seat tube, that keeps the straightest knee as it is when cleat, crank or what
 * lies under the foot changes and the rider keeps the own foot pitch. In life the pitch drifts: re-measure.
 *
 * @returns mm, negative = lower, with the standard deviation the measuring errors bring
 * @throws FitMathError when an input is out of range or the leg cannot have that flexion
 * @source house rule, from the leg chain; no published pair of such changes exists to check it against
 * @example saddleChange({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 20 }, minimumKneeFlexionDeg: 35,
 *   seatTubeAngleDeg: 73 }, { crankLongerMm: 2.5 }).value; // -2.50…
 */
export function saddleChange(
  rider: RiderOnBike,
  change: FootAndCrankChange,
  errors: RiderErrors = usualErrors,
): Uncertain {
  const { leg } = rider;
  const cleatBackMm = requireRange('cleatBackMm', change.cleatBackMm ?? 0, -100, 150);
  const crankLongerMm = requireRange('crankLongerMm', change.crankLongerMm ?? 0, -60, 60);
  const ankleHigherMm = requireRange('ankleHigherMm', change.ankleHigherMm ?? 0, -50, 50);
  const inputs = {
    thighMm: leg.thighMm,
    shankMm: leg.shankMm,
    footLeverMm: leg.footLeverMm,
    ankleAboveSpindleMm: leg.ankleAboveSpindleMm,
    footPitchDeg: 0,
    minimumKneeFlexionDeg: rider.minimumKneeFlexionDeg,
    seatTubeAngleDeg: rider.seatTubeAngleDeg,
  };
  return propagate(inputs, { ...errors }, (now) => {
    const shifted = shiftedFootPitch(rider.footPitch, now.footPitchDeg);
    const path: SaddlePath = { kind: 'along-seat-tube', seatTubeAngleDeg: now.seatTubeAngleDeg };
    const { thighMm, shankMm, footLeverMm, ankleAboveSpindleMm } = now;
    const before: Leg = { ...leg, thighMm, shankMm, footLeverMm, ankleAboveSpindleMm };
    const after: Leg = {
      ...before,
      footLeverMm: footLeverMm - cleatBackMm,
      ankleAboveSpindleMm: ankleAboveSpindleMm + ankleHigherMm,
      crankLengthMm: leg.crankLengthMm + crankLongerMm,
    };
    const height = (one: Leg): number =>
      hipForKneeFlexion(one, shifted, now.minimumKneeFlexionDeg, path).hipDistanceMm;
    return height(after) - height(before);
  });
}

/**
 * The same for a cleat that moves back and nothing else.
 *
 * @param movesBackMm −100–150
 * @returns mm, negative = lower
 * @throws FitMathError as `saddleChange`
 * @source saddleChange
 * @example saddleChangeForCleat({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 20 }, minimumKneeFlexionDeg: 35,
 *   seatTubeAngleDeg: 73 }, 24).value; // -13.6…
 */
export function saddleChangeForCleat(
  rider: RiderOnBike,
  movesBackMm: number,
  errors: RiderErrors = usualErrors,
): Uncertain {
  return saddleChange(rider, { cleatBackMm: movesBackMm }, errors);
}
