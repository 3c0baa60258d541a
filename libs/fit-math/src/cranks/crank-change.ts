import { radiansOf } from '../angles.js';
import type { Caution } from '../cautions.js';
import {
  solveSaddleChanges,
  usualErrors,
  type RiderErrors,
  type RiderOnBike,
  type SaddleChangeSolution,
} from '../cleats/saddle-change.js';
import { formulaVersion } from '../formula-version.js';
import { revolution } from '../leg-chain/revolution.js';
import { requireRange } from '../require-range.js';
import type { Uncertain } from '../uncertainty.js';

export interface CrankChange {
  readonly formulaVersion: string;
  /** Along the seat tube, negative = lower. */
  readonly saddleChangeMm: Uncertain;
  /** What holding the saddle’s height to the pedal at the bottom would ask: exactly the crank’s difference. */
  readonly saddleChangeToPedalMm: number;
  /** Vertical, negative = lower: what keeps the drop from saddle to bars. */
  readonly barHeightChangeMm: Uncertain;
  /** Horizontal, negative = back: what keeps the distance from saddle to bars. */
  readonly barReachChangeMm: Uncertain;
  /** Most bent knee of the turn, after less before; negative = less bent. */
  readonly greatestKneeFlexionChangeDeg: number;
  /** Highest thigh of the turn, after less before; negative = the hip closes less. */
  readonly highestThighChangeDeg: number;
  readonly cautions: readonly Caution[];
}

const pitchDrifts: Caution = {
  code: 'foot-pitch-drifts',
  text: 'Computed with the foot held as it is now. It drifts on another crank: re-measure at follow-up.',
};

/**
 * What another crank asks of saddle and bars and does to knee and hip at the top of the turn, when the straightest knee
 * and the rider's own foot pitch are kept.
 *
 * @param newCrankLengthMm bottom bracket to pedal spindle, within 60 mm of the present one. 80–250
 * @param errors standard deviations of the measured values
 * @throws FitMathError when an input is out of range or the leg cannot reach
 * @source house rule, from the leg chain; the saddle held to the pedal as in Martin & Spirduso 2001, Eur J Appl Physiol
 *   84:413–418
 * @check outside/cranks: saddle held to the pedal, Martin & Spirduso 2001; outside/leg-chain: Ferrer-Roca et al. 2017
 * @tolerance 1 %; direction and order
 * @example crankChange({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 10 }, minimumKneeFlexionDeg: 35,
 *   seatTubeAngleDeg: 73 }, 165).saddleChangeMm.value; // 7.5…
 */
export function crankChange(
  rider: RiderOnBike,
  newCrankLengthMm: number,
  errors: RiderErrors = usualErrors,
): CrankChange {
  requireRange('newCrankLengthMm', newCrankLengthMm, 80, 250);
  const crankLongerMm = newCrankLengthMm - rider.leg.crankLengthMm;
  const [same, other] = solveSaddleChanges(rider, [{}, { crankLongerMm }], errors).changes as [
    SaddleChangeSolution,
    SaddleChangeSolution,
  ];
  const before = topOfTurn(rider, same);
  const after = topOfTurn(rider, other);
  const saddle = other.saddleHeightChangeMm;
  const share = (part: number): Uncertain => ({ value: part * saddle.value, sd: Math.abs(part) * saddle.sd });
  const tube = radiansOf(rider.seatTubeAngleDeg);
  return {
    formulaVersion,
    saddleChangeMm: saddle,
    saddleChangeToPedalMm: 0 - crankLongerMm,
    barHeightChangeMm: share(Math.sin(tube)),
    barReachChangeMm: share(-Math.cos(tube)),
    greatestKneeFlexionChangeDeg: after.kneeFlexionDeg - before.kneeFlexionDeg,
    highestThighChangeDeg: after.thighElevationDeg - before.thighElevationDeg,
    cautions: [pitchDrifts],
  };
}

function topOfTurn(
  { footPitch }: RiderOnBike,
  { leg, hip: { hip } }: SaddleChangeSolution,
): { kneeFlexionDeg: number; thighElevationDeg: number } {
  const samples = revolution(leg, footPitch, hip);
  return {
    kneeFlexionDeg: Math.max(...samples.map((sample) => sample.kneeFlexionDeg)),
    thighElevationDeg: Math.max(...samples.map((sample) => sample.thighElevationDeg)),
  };
}
