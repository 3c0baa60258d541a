import { saddleChange, type RiderOnBike } from '../cleats/saddle-change.js';
import { formulaVersion } from '../formula-version.js';
import { hipForKneeFlexion } from '../leg-chain/hip-for-knee-flexion.js';
import type { Leg } from '../leg-chain/leg.js';
import { revolution } from '../leg-chain/revolution.js';
import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';

export interface CrankChange {
  readonly formulaVersion: string;
  /** Along the seat tube, negative = lower. The bars move as much where the drop to them is to stay. */
  readonly saddleChangeMm: Uncertain;
  /** Most bent knee of the turn, after less before; negative = less bent. */
  readonly greatestKneeFlexionChangeDeg: number;
  /** Highest thigh of the turn, after less before; negative = the hip closes less. */
  readonly highestThighChangeDeg: number;
}

/**
 * What another crank asks of the saddle and does to knee and hip at the top of the turn, when the straightest knee and
 * the rider's own foot pitch are kept.
 *
 * @param newCrankLengthMm bottom bracket to pedal spindle, within 60 mm of the present one. 80–250
 * @throws FitMathError when an input is out of range or the leg cannot reach
 * @source house rule, from the leg chain
 * @example crankChange({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 10 }, minimumKneeFlexionDeg: 35,
 *   seatTubeAngleDeg: 73 }, 165).saddleChangeMm.value; // 7.5…
 */
export function crankChange(rider: RiderOnBike, newCrankLengthMm: number): CrankChange {
  requireRange('newCrankLengthMm', newCrankLengthMm, 80, 250);
  const crankLongerMm = newCrankLengthMm - rider.leg.crankLengthMm;
  const before = topOfTurn(rider, rider.leg);
  const after = topOfTurn(rider, { ...rider.leg, crankLengthMm: newCrankLengthMm });
  return {
    formulaVersion,
    saddleChangeMm: saddleChange(rider, { crankLongerMm }),
    greatestKneeFlexionChangeDeg: after.kneeFlexionDeg - before.kneeFlexionDeg,
    highestThighChangeDeg: after.thighElevationDeg - before.thighElevationDeg,
  };
}

function topOfTurn(
  { footPitch, minimumKneeFlexionDeg, seatTubeAngleDeg }: RiderOnBike,
  leg: Leg,
): { kneeFlexionDeg: number; thighElevationDeg: number } {
  const path = { kind: 'along-seat-tube', seatTubeAngleDeg } as const;
  const { hip } = hipForKneeFlexion(leg, footPitch, minimumKneeFlexionDeg, path);
  const samples = revolution(leg, footPitch, hip);
  return {
    kneeFlexionDeg: Math.max(...samples.map((sample) => sample.kneeFlexionDeg)),
    thighElevationDeg: Math.max(...samples.map((sample) => sample.thighElevationDeg)),
  };
}
