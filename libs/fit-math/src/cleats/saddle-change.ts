import type { FootAndCrank } from '../leg-chain/ankle-position.js';
import { ankleTurn, type AnkleTurn } from '../leg-chain/ankle-turn.js';
import { requireFootPitch, shiftedFootPitch, type FootPitch } from '../leg-chain/foot-pitch.js';
import { hipOverTurn, type HipSolution } from '../leg-chain/hip-for-knee-flexion.js';
import { requireLeg, type Leg } from '../leg-chain/leg.js';
import type { SaddlePath } from '../leg-chain/saddle-path.js';
import { requireErrors, requireRange } from '../require-range.js';
import { standardDeviations, type Uncertain } from '../uncertainty.js';

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
 * @check src/leg-chain/hip-for-knee-flexion: 20 changes by an independent bisection; src/uncertainty: seeded Monte
 *   Carlo
 * @tolerance 0.2 mm; 7 % of the error
 * @example saddleChange({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 20 }, minimumKneeFlexionDeg: 35,
 *   seatTubeAngleDeg: 73 }, { crankLongerMm: 2.5 }).value; // -2.50…
 */
export function saddleChange(
  rider: RiderOnBike,
  change: FootAndCrankChange,
  errors: RiderErrors = usualErrors,
): Uncertain {
  return solveSaddleChanges(rider, [change], errors).changes[0]?.saddleHeightChangeMm as Uncertain;
}

export interface SaddleChangeSolution {
  readonly leg: Leg;
  readonly turn: AnkleTurn;
  readonly hip: HipSolution;
  /** Along the seat tube, negative = lower. */
  readonly saddleHeightChangeMm: Uncertain;
}

/**
 * Several changes against one and the same rider: what they share is worked out once.
 *
 * The inputs are checked as they stand; within an error of its edge one is shifted beyond it, which the chain can take.
 *
 * @throws FitMathError as `saddleChange`
 */
export function solveSaddleChanges(
  rider: RiderOnBike,
  changes: readonly FootAndCrankChange[],
  errors: RiderErrors,
): { readonly before: HipSolution; readonly changes: readonly SaddleChangeSolution[] } {
  const { leg, footPitch } = rider;
  requireFootPitch(footPitch);
  requireRange('minimumKneeFlexionDeg', rider.minimumKneeFlexionDeg, 5, 120);
  requireRange('seatTubeAngleDeg', rider.seatTubeAngleDeg, 50, 90);
  requireErrors('errors', errors, 100);
  const inputs = {
    thighMm: leg.thighMm,
    shankMm: leg.shankMm,
    footLeverMm: leg.footLeverMm,
    ankleAboveSpindleMm: leg.ankleAboveSpindleMm,
    footPitchDeg: 0,
    minimumKneeFlexionDeg: rider.minimumKneeFlexionDeg,
    seatTubeAngleDeg: rider.seatTubeAngleDeg,
  };
  for (const change of [{}, ...changes]) requireLeg(changedLeg(leg, requireChange(change)));

  const turnOf = rememberingTurns(footPitch);
  const solve = (now: typeof inputs, change: FootAndCrankChange) => {
    const { thighMm, shankMm, footLeverMm, ankleAboveSpindleMm } = now;
    const changed = changedLeg({ ...leg, thighMm, shankMm, footLeverMm, ankleAboveSpindleMm }, change);
    const turn = turnOf(changed, now.footPitchDeg);
    const path: SaddlePath = { kind: 'along-seat-tube', seatTubeAngleDeg: now.seatTubeAngleDeg };
    return { leg: changed, turn, hip: hipOverTurn(turn, changed, now.minimumKneeFlexionDeg, path) };
  };
  const before = solve(inputs, {}).hip;
  const sds = standardDeviations(inputs, { ...errors }, (now) => {
    const unchanged = solve(now, {}).hip.hipDistanceMm;
    return changes.map((change) => solve(now, change).hip.hipDistanceMm - unchanged);
  });
  return {
    before,
    changes: changes.map((change, i) => {
      const after = solve(inputs, change);
      const value = after.hip.hipDistanceMm - before.hipDistanceMm;
      return { ...after, saddleHeightChangeMm: { value, sd: sds[i] ?? 0 } };
    }),
  };
}

function requireChange(change: FootAndCrankChange): FootAndCrankChange {
  requireRange('cleatBackMm', change.cleatBackMm ?? 0, -100, 150);
  requireRange('crankLongerMm', change.crankLongerMm ?? 0, -60, 60);
  requireRange('ankleHigherMm', change.ankleHigherMm ?? 0, -50, 50);
  return change;
}

function changedLeg(leg: Leg, change: FootAndCrankChange): Leg {
  return {
    ...leg,
    footLeverMm: leg.footLeverMm - (change.cleatBackMm ?? 0),
    ankleAboveSpindleMm: leg.ankleAboveSpindleMm + (change.ankleHigherMm ?? 0),
    crankLengthMm: leg.crankLengthMm + (change.crankLongerMm ?? 0),
  };
}

/** Most shifts of an input leave the foot alone, and its turn is most of the work. */
function rememberingTurns(pitch: FootPitch): (foot: FootAndCrank, pitchByDeg: number) => AnkleTurn {
  const turns = new Map<string, AnkleTurn>();
  return (foot, pitchByDeg) => {
    const key = [foot.footLeverMm, foot.ankleAboveSpindleMm, foot.crankLengthMm, pitchByDeg].join(' ');
    const turn = turns.get(key) ?? ankleTurn(foot, shiftedFootPitch(pitch, pitchByDeg));
    turns.set(key, turn);
    return turn;
  };
}

/**
 * The same for a cleat that moves back and nothing else.
 *
 * @param movesBackMm −100–150
 * @returns mm, negative = lower
 * @throws FitMathError as `saddleChange`
 * @source saddleChange
 * @check as `saddleChange`; outside/cleat-plan: facts of the trade
 * @tolerance as `saddleChange`; ranges
 * @example saddleChangeForCleat({ leg: { thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120,
 *   crankLengthMm: 172.5 }, footPitch: { kind: 'constant', pitchDeg: 20 }, minimumKneeFlexionDeg: 35,
 *   seatTubeAngleDeg: 73 }, 24).value; // -13.55…
 */
export function saddleChangeForCleat(
  rider: RiderOnBike,
  movesBackMm: number,
  errors: RiderErrors = usualErrors,
): Uncertain {
  return saddleChange(rider, { cleatBackMm: movesBackMm }, errors);
}
