import { radiansOf } from '../angles.js';
import type { Caution } from '../cautions.js';
import {
  saddleChange,
  usualErrors,
  type FootAndCrankChange,
  type RiderErrors,
  type RiderOnBike,
} from '../cleats/saddle-change.js';
import { formulaVersion } from '../formula-version.js';
import type { Point } from '../leg-chain/ankle-position.js';
import type { Uncertain } from '../uncertainty.js';
import { requireContactPoints, type ContactPoints } from './contact-points.js';
import { transferPosition, type Transfer, type TransferInput } from './transfer-position.js';

export interface SecondBikeInput extends Omit<TransferInput, 'wanted'> {
  /** Where the rider meets the first bike. */
  readonly contactPoints: ContactPoints;
  /** The leg and foot as on the first bike. */
  readonly rider: RiderOnBike;
  /** What is other on the second bike: cleat, crank, sole or pedal. */
  readonly change: FootAndCrankChange;
  /** Standard deviations of the measured values; the usual ones when absent. */
  readonly errors?: RiderErrors;
}

export interface SecondBike {
  readonly formulaVersion: string;
  /** Along the seat tube, negative = lower. */
  readonly saddleChangeMm: Uncertain;
  /** What the second bike must bring. */
  readonly wanted: ContactPoints;
  readonly transfer: Transfer;
  readonly cautions: readonly Caution[];
}

const remeasure: Caution = {
  code: 'foot-pitch-drifts',
  text: 'Computed with the foot held as on the first bike. It drifts after such a change: re-measure on the second.',
};

/**
 * A second bike for another use, in one call: the position of the first, the change of cleat, crank or sole, and the
 * builds of the second frame that bring it.
 *
 * Saddle and grips move together along the seat tube, so that the torso keeps its angle and reach.
 *
 * @throws FitMathError as `saddleChange` and `transferPosition`
 * @source saddleChange and transferPosition
 * @check src/frames/frames: nothing changed brings the same build; saddle and grips move as one
 * @tolerance 1e-9 mm
 * @example
 * const leg = { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 };
 * secondBike({
 *   contactPoints: { saddle: { xMm: -225, yMm: 730 }, upperGrip: { xMm: 555, yMm: 605 }, lowerGripYMm: null },
 *   rider: {
 *     leg,
 *     footPitch: { kind: 'constant', pitchDeg: 20 },
 *     minimumKneeFlexionDeg: 35,
 *     seatTubeAngleDeg: 73,
 *   },
 *   change: { cleatBackMm: 24 },
 *   frame: {
 *     stackMm: 560,
 *     reachMm: 385,
 *     headTubeAngleDeg: 73,
 *     seatTubeAngleDeg: 73.5,
 *     seatTubeAxisAheadMm: 0,
 *     clampAlongTubeMm: { least: 600, greatest: 760 },
 *     topCapMm: 8,
 *   },
 *   parts: {
 *     stems: [{ id: 'level', lengthMm: 100, angleDeg: -17, clampHeightMm: 40 }],
 *     spacersMm: [0, 10, 20],
 *     bars: [{ id: 'drop', reachMm: 80, riseMm: 0, dropMm: 125 }],
 *     seatposts: [{ id: 'set back', setbackMm: 20 }],
 *     saddle: {
 *       lengthMm: 270,
 *       tipTo80MmWidthMm: 140,
 *       railToTopMm: 45,
 *       widthPointBehindRailMiddleMm: 15,
 *       railTravelMm: 18,
 *     },
 *   },
 *   toleranceMm: 5,
 *   listed: 1,
 * }).wanted.saddle;
 * // { xMm: -221.0…, yMm: 717.0… }
 */
export function secondBike(input: SecondBikeInput): SecondBike {
  const { contactPoints: first, rider, change, errors = usualErrors, ...search } = input;
  requireContactPoints('contactPoints', first);
  const saddleChangeMm = saddleChange(rider, change, errors);
  const tube = radiansOf(rider.seatTubeAngleDeg);
  const forwardMm = -saddleChangeMm.value * Math.cos(tube);
  const upMm = saddleChangeMm.value * Math.sin(tube);
  const moved = ({ xMm, yMm }: Point): Point => ({ xMm: xMm + forwardMm, yMm: yMm + upMm });
  const wanted: ContactPoints = {
    saddle: moved(first.saddle),
    upperGrip: moved(first.upperGrip),
    lowerGripYMm: first.lowerGripYMm === null ? null : first.lowerGripYMm + upMm,
  };
  return {
    formulaVersion,
    saddleChangeMm,
    wanted,
    transfer: transferPosition({ ...search, wanted }),
    cautions: [remeasure],
  };
}
