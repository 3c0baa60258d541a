import { degreesOf, radiansOf } from '../angles.js';
import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';
import type { Point } from './ankle-position.js';
import { ankleTurn, turnStepRad, turnSteps, vertex, type AnkleTurn } from './ankle-turn.js';
import { requireFootPitch, type FootPitch } from './foot-pitch.js';
import { requireLeg, type Leg } from './leg.js';
import { hipTrack, requireSaddlePath, type SaddlePath } from './saddle-path.js';

export interface HipSolution {
  readonly hip: Point;
  /** Hip joint to bottom bracket, straight. */
  readonly hipDistanceMm: number;
  /** Where in the turn the leg is straightest; before bottom dead centre (180). */
  readonly straightestAtCrankDeg: number;
}

/**
 * The hip place on a saddle path from which the straightest point of the turn has the wanted knee flexion.
 *
 * A hip place is right when the farthest ankle of the turn is exactly as far from it as a leg bent by the target is
 * long. Seen from one crank angle that place is where the path leaves a circle about the ankle, in closed form; the
 * whole turn is satisfied by the lowest of these places. The turn is sampled every 0.5° and the lowest place refined
 * by a parabola through its neighbours.
 *
 * @param minimumKneeFlexionDeg wanted knee flexion at the straightest point, 0 = straight. 5–120
 * @throws FitMathError when an input is out of range or no place on the path has that flexion
 * @source house rule, from the law of cosines; checked against an independent bisection
 * @check src/leg-chain/hip-for-knee-flexion: independent bisection, 5 places; outside/geometry-package: circles and
 *   lines intersected, all three paths
 * @tolerance 0.2 mm; 0.05 mm
 * @example hipForKneeFlexion({ thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
 *   { kind: 'constant', pitchDeg: 10 }, 35, { kind: 'along-seat-tube', seatTubeAngleDeg: 73 }).hipDistanceMm; // 813.39…
 */
export function hipForKneeFlexion(
  leg: Leg,
  pitch: FootPitch,
  minimumKneeFlexionDeg: number,
  path: SaddlePath,
): HipSolution {
  requireLeg(leg);
  requireFootPitch(pitch);
  requireRange('minimumKneeFlexionDeg', minimumKneeFlexionDeg, 5, 120);
  requireSaddlePath(path);
  return hipOverTurn(ankleTurn(leg, pitch), leg, minimumKneeFlexionDeg, path);
}

/** The same over a turn already worked out, from inputs already checked. */
export function hipOverTurn(
  turn: AnkleTurn,
  leg: Leg,
  minimumKneeFlexionDeg: number,
  path: SaddlePath,
): HipSolution {
  const { thighMm: t, shankMm: s } = leg;
  const { limit, hipAt } = hipTrack(path, leg, turn);
  const reachSquared = t * t + s * s + 2 * t * s * Math.cos(radiansOf(minimumKneeFlexionDeg));
  const limitAt = (step: number): number => {
    const i = (step + turnSteps) % turnSteps;
    return limit(turn.xMm[i] ?? 0, turn.yMm[i] ?? 0, reachSquared);
  };

  let lowest = Number.POSITIVE_INFINITY;
  let lowestAt = 0;
  for (let i = 0; i < turnSteps; i += 1) {
    const here = limitAt(i);
    if (Number.isNaN(here)) {
      throw new FitMathError(
        'target.not-reachable',
        'minimumKneeFlexionDeg',
        'a flexion the leg can have on this saddle path',
      );
    }
    if (here < lowest) {
      lowest = here;
      lowestAt = i;
    }
  }
  const { shift, add } = vertex(limitAt(lowestAt - 1), lowest, limitAt(lowestAt + 1));
  const hip = hipAt(lowest + add);
  return {
    hip,
    hipDistanceMm: Math.hypot(hip.xMm, hip.yMm),
    straightestAtCrankDeg: degreesOf((lowestAt + shift) * turnStepRad),
  };
}
