import { degreesOf, radiansOf } from '../angles.js';
import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';
import { ankleOverTurn, type Point } from './ankle-position.js';
import { ankleTurn, turnStepRad, turnSteps, vertex, type AnkleTurn } from './ankle-turn.js';
import { requireFootPitch, type FootPitch } from './foot-pitch.js';
import { anglesAt, cannotReach, requireHip, type JointAngles } from './joint-angles.js';
import { requireLeg, type Leg } from './leg.js';

export interface RevolutionSample extends JointAngles {
  readonly crankDeg: number;
}

/**
 * Joint angles over a whole turn at equal steps from top dead centre.
 *
 * @param hip hip joint from the bottom bracket, `x` forward (so negative), `y` up
 * @param steps a whole number, 4–3600
 * @throws FitMathError when an input is out of range or the leg cannot reach; the message names the crank angle
 * @source jointAngles at every step
 * @check outside/leg-chain: joint ranges of Ericson et al. 1988, and of a study in space of 2021
 * @tolerance 5°; 6°
 * @example revolution({ thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
 *   { kind: 'constant', pitchDeg: 10 }, { xMm: -237.8, yMm: 777.9 }, 4)[1]; // { crankDeg: 90, kneeFlexionDeg: 70.8… }
 */
export function revolution(leg: Leg, pitch: FootPitch, hip: Point, steps = 360): RevolutionSample[] {
  requireLeg(leg);
  requireFootPitch(pitch);
  requireHip(hip);
  if (!Number.isInteger(steps)) {
    throw new FitMathError('input.not-a-number', 'steps', 'a whole number from 4 to 3600');
  }
  requireRange('steps', steps, 4, 3600);
  const ankleAt = ankleOverTurn(leg, pitch);
  const samples: RevolutionSample[] = [];
  for (let i = 0; i < steps; i += 1) {
    const crankDeg = (360 * i) / steps;
    const crankRad = radiansOf(crankDeg);
    samples.push(anglesAt(leg, hip, ankleAt(Math.cos(crankRad), Math.sin(crankRad)), crankDeg));
  }
  return samples;
}

/**
 * The straightest point of the turn: the least knee flexion and where it is, found at steps of 0.5° and between them by
 * a parabola.
 *
 * @param hip hip joint from the bottom bracket, `x` forward (so negative), `y` up
 * @throws FitMathError when an input is out of range or the leg cannot reach; the message names the crank angle
 * @source the ankle farthest from the hip, by the law of cosines
 * @check outside/leg-chain: Farrell et al. 2003, about 170°; src/leg-chain/hip-for-knee-flexion: undoes the solve
 * @tolerance 8°; 0.0005°
 * @example straightest({ thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
 *   { kind: 'constant', pitchDeg: 10 }, { xMm: -237.8, yMm: 777.9 }).crankDeg; // 169.2…
 */
export function straightest(leg: Leg, pitch: FootPitch, hip: Point): RevolutionSample {
  requireLeg(leg);
  requireFootPitch(pitch);
  requireHip(hip);
  return straightestOverTurn(ankleTurn(leg, pitch), leg, pitch, hip);
}

/** The same over a turn already worked out, from inputs already checked. */
export function straightestOverTurn(
  turn: AnkleTurn,
  leg: Leg,
  pitch: FootPitch,
  hip: Point,
): RevolutionSample {
  const squaredAt = (step: number): number => {
    const i = (step + turnSteps) % turnSteps;
    const dx = (turn.xMm[i] ?? 0) - hip.xMm;
    const dy = (turn.yMm[i] ?? 0) - hip.yMm;
    return dx * dx + dy * dy;
  };
  let farthest = 0;
  let farthestAt = 0;
  let nearest = Number.POSITIVE_INFINITY;
  let nearestAt = 0;
  for (let i = 0; i < turnSteps; i += 1) {
    const squared = squaredAt(i);
    if (squared > farthest) {
      farthest = squared;
      farthestAt = i;
    }
    if (squared < nearest) {
      nearest = squared;
      nearestAt = i;
    }
  }
  if (nearest < (leg.thighMm - leg.shankMm) ** 2)
    throw cannotReach(leg, nearest, (360 * nearestAt) / turnSteps);
  const { shift } = vertex(squaredAt(farthestAt - 1), farthest, squaredAt(farthestAt + 1));
  const crankRad = (farthestAt + shift) * turnStepRad;
  const ankle = ankleOverTurn(leg, pitch)(Math.cos(crankRad), Math.sin(crankRad));
  return anglesAt(leg, hip, ankle, degreesOf(crankRad));
}
