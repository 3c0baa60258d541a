import { radiansOf } from '../angles.js';
import type { Caution } from '../cautions.js';
import { usualErrors, type RiderErrors } from '../cleats/saddle-change.js';
import { FitMathError } from '../errors.js';
import { ankleTurn, turnSteps } from '../leg-chain/ankle-turn.js';
import { requireFootPitch, shiftedFootPitch, type FootPitch } from '../leg-chain/foot-pitch.js';
import { hipOverTurn } from '../leg-chain/hip-for-knee-flexion.js';
import { requireLeg, type Leg } from '../leg-chain/leg.js';
import { hipTrack, type SaddlePath } from '../leg-chain/saddle-path.js';
import { requireErrors, requireRange } from '../require-range.js';
import { standardDeviations, type Uncertain } from '../uncertainty.js';
import {
  kneeFlexionTargets,
  kneeReadings,
  readsStraighterInPlaneDeg,
  type KneeFlexionTarget,
  type KneeReading,
} from './knee-flexion-targets.js';

/** A rider on the saddle as it is now, with the knee read in one or more ways. */
export interface RiderNow {
  readonly leg: Leg;
  readonly footPitch: FootPitch;
  /** Direction the saddle moves in, to the horizontal. 50–90. */
  readonly seatTubeAngleDeg: number;
  /** Bottom-bracket centre to saddle top, along the seat tube. 400–1000. */
  readonly saddleHeightMm: number;
  /** Knee flexion, 0 = straight, each as its way of reading says. 5–120. */
  readonly readings: Readonly<Partial<Record<KneeReading, number>>>;
  /** Whether readings while riding come from film in one plane or from a system that sees in space. */
  readonly filmedIn: 'plane' | 'space';
  /** Standard deviations; `minimumKneeFlexionDeg` is that of a knee reading. The usual ones when absent. */
  readonly errors?: RiderErrors;
}

export interface KneeTargetRow {
  readonly target: KneeFlexionTarget['id'];
  readonly reading: KneeReading;
  readonly flexionDeg: readonly [number, number];
  readonly source: string;
  /** The reading as the target counts it: taken down to one plane when it was made in space. */
  readonly readingUsedDeg: number;
  /** Saddle height that gives the band's more bent end; bottom-bracket centre to saddle top, along the seat tube. */
  readonly lowestMm: Uncertain;
  /** The same for its straighter end. */
  readonly highestMm: Uncertain;
  /** Whether the knee as read is within the band now. */
  readonly withinNow: boolean;
}

export interface KneeTargetHeights {
  readonly rows: readonly KneeTargetRow[];
  readonly leftOut: readonly { readonly target: KneeFlexionTarget['id']; readonly missing: KneeReading }[];
  readonly cautions: readonly Caution[];
}

/** Standard deviation of a saddle height by tape. House rule. */
const saddleHeightErrorMm = 2;

const keptApart: Caution = {
  code: 'static-is-not-dynamic',
  text: 'At the bottom a knee read with the rider stopped was 8.2 ± 5° straighter than the same knee riding (Bini & Hume 2016, Human Movement 17(1)): each target is held to a reading of its own kind and none is converted.',
};
const takenToOnePlane: Caution = {
  code: 'taken-to-one-plane',
  text: `The readings were made in space and the targets in one plane, which reads a knee near the bottom about ${readsStraighterInPlaneDeg}° straighter (Fonda et al. 2014): that much was taken off.`,
};
const ankleTakesUp: Caution = {
  code: 'ankle-takes-up',
  text: 'Computed with the foot held as it is now. Riders’ ankles take up about half of a change (Ferrer-Roca et al. 2014, J Strength Cond Res 28(3):784–791): move in steps and read again.',
};

/**
 * The saddle heights that would bring this rider's knee to each published band, from the height and the reading there
 * are now. A target whose own kind of reading is missing is left out.
 *
 * @returns bottom-bracket centre to saddle top along the seat tube, with the error that measuring brings
 * @throws FitMathError naming the input outside its range, `readings` when there is none, or a flexion the leg cannot
 *   have
 * @source leg chain from the knee as read to the target; targets as in `kneeFlexionTargets`
 * @check src/saddle-height/knee-target-heights: bisection on the knee at the bottom; `hipForKneeFlexion` at both ends
 * @tolerance 1e-6°; 1e-9 mm
 * @example
 * kneeTargetHeights({
 *   leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
 *   footPitch: { kind: 'constant', pitchDeg: 15 },
 *   seatTubeAngleDeg: 73,
 *   saddleHeightMm: 740,
 *   readings: { dynamicStraightestDeg: 44 },
 *   filmedIn: 'plane',
 * }).rows[0];
 * // { target: 'riding-straightest-30-40', withinNow: false, lowestMm: { value: 750.7… }, highestMm: { value: 773.3… } }
 */
export function kneeTargetHeights(now: RiderNow): KneeTargetHeights {
  const { readings, errors = usualErrors } = now;
  requireLeg(now.leg);
  requireFootPitch(now.footPitch);
  requireRange('seatTubeAngleDeg', now.seatTubeAngleDeg, 50, 90);
  requireRange('saddleHeightMm', now.saddleHeightMm, 400, 1000);
  requireErrors('errors', errors, 100);
  for (const name of Object.keys(kneeReadings) as KneeReading[]) {
    if (readings[name] !== undefined) requireRange(`readings.${name}`, readings[name], 5, 120);
  }
  const known = kneeFlexionTargets.filter(({ reading }) => readings[reading] !== undefined);
  if (known.length === 0) {
    throw new FitMathError('input.not-a-number', 'readings', 'at least one reading of the knee');
  }
  const usedDeg = (reading: KneeReading): number =>
    (readings[reading] ?? Number.NaN) -
    (now.filmedIn === 'space' && reading !== 'staticBottomDeg' ? readsStraighterInPlaneDeg : 0);

  const inputs = {
    thighMm: now.leg.thighMm,
    shankMm: now.leg.shankMm,
    footLeverMm: now.leg.footLeverMm,
    ankleAboveSpindleMm: now.leg.ankleAboveSpindleMm,
    footPitchDeg: 0,
    minimumKneeFlexionDeg: 0,
    seatTubeAngleDeg: now.seatTubeAngleDeg,
    saddleHeightMm: now.saddleHeightMm,
  };
  /** Lowest and highest of every known target, one after the other. */
  const heights = (shifted: typeof inputs): number[] => {
    const { thighMm, shankMm, footLeverMm, ankleAboveSpindleMm } = shifted;
    const leg = { ...now.leg, thighMm, shankMm, footLeverMm, ankleAboveSpindleMm };
    const distance = hipDistances(leg, shiftedFootPitch(now.footPitch, shifted.footPitchDeg), {
      kind: 'along-seat-tube',
      seatTubeAngleDeg: shifted.seatTubeAngleDeg,
    });
    return known.flatMap(({ reading, flexionDeg: [straighter, moreBent] }) => {
      const from = distance(reading, usedDeg(reading) + shifted.minimumKneeFlexionDeg);
      return [moreBent, straighter].map((to) => shifted.saddleHeightMm + distance(reading, to) - from);
    });
  };
  const values = heights(inputs);
  const sds = standardDeviations(inputs, { ...errors, saddleHeightMm: saddleHeightErrorMm }, heights);
  const uncertain = (i: number): Uncertain => ({ value: values[i] ?? Number.NaN, sd: sds[i] ?? 0 });
  const filmed = known.some(({ reading }) => reading !== 'staticBottomDeg');
  return {
    rows: known.map(({ id, reading, flexionDeg, source }, i) => ({
      target: id,
      reading,
      flexionDeg,
      source,
      readingUsedDeg: usedDeg(reading),
      lowestMm: uncertain(2 * i),
      highestMm: uncertain(2 * i + 1),
      withinNow: usedDeg(reading) >= flexionDeg[0] && usedDeg(reading) <= flexionDeg[1],
    })),
    leftOut: kneeFlexionTargets
      .filter(({ reading }) => readings[reading] === undefined)
      .map(({ id, reading }) => ({ target: id, missing: reading })),
    cautions: [keptApart, ankleTakesUp, ...(now.filmedIn === 'space' && filmed ? [takenToOnePlane] : [])],
  };
}

/** Hip distance along the seat tube for a flexion at the bottom, or at the straightest point of the turn. */
function hipDistances(
  leg: Leg,
  pitch: FootPitch,
  path: SaddlePath,
): (reading: KneeReading, flexionDeg: number) => number {
  const turn = ankleTurn(leg, pitch);
  const { limit } = hipTrack(path, leg, turn);
  const bottom = { xMm: turn.xMm[turnSteps / 2] ?? 0, yMm: turn.yMm[turnSteps / 2] ?? 0 };
  const { thighMm: t, shankMm: s } = leg;
  return (reading, flexionDeg) => {
    if (reading === 'dynamicStraightestDeg') return hipOverTurn(turn, leg, flexionDeg, path).hipDistanceMm;
    const reachSquared = t * t + s * s + 2 * t * s * Math.cos(radiansOf(flexionDeg));
    const distance = limit(bottom.xMm, bottom.yMm, reachSquared);
    if (Number.isNaN(distance)) {
      throw new FitMathError('target.not-reachable', `readings.${reading}`, 'a flexion the leg can have');
    }
    return distance;
  };
}
