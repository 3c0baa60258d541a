import { hipForKneeFlexion, type SaddlePath } from '../leg-chain/hip-for-knee-flexion.js';
import { shiftedFootPitch, type FootPitch } from '../leg-chain/foot-pitch.js';
import type { Leg } from '../leg-chain/leg.js';
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

/**
 * The change of saddle height, along the seat tube, that keeps the straightest knee as it is when the cleat moves
 * back and the rider keeps the own foot pitch. In life the pitch drifts after such a change: re-measure.
 *
 * @param movesBackMm −100–150
 * @returns mm, negative = lower, with the standard deviation the measuring errors bring
 * @throws FitMathError when an input is out of range or the leg cannot have that flexion
 * @source house rule, from the leg chain; no published pair of cleat and saddle change exists to check it against
 * @example saddleChangeForCleat({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 20 }, minimumKneeFlexionDeg: 35,
 *   seatTubeAngleDeg: 73 }, 24).value; // -13.6…
 */
export function saddleChangeForCleat(
  rider: RiderOnBike,
  movesBackMm: number,
  errors: RiderErrors = usualErrors,
): Uncertain {
  const { leg } = rider;
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
    const height = (footLeverMm: number): number =>
      hipForKneeFlexion({ ...leg, ...segments(now), footLeverMm }, shifted, now.minimumKneeFlexionDeg, path)
        .hipDistanceMm;
    return height(now.footLeverMm - movesBackMm) - height(now.footLeverMm);
  });
}

const segments = ({ thighMm, shankMm, ankleAboveSpindleMm }: Omit<Leg, 'footLeverMm' | 'crankLengthMm'>) => ({
  thighMm,
  shankMm,
  ankleAboveSpindleMm,
});
