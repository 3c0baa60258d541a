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
