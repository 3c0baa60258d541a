import { radiansOf } from '../angles.js';
import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';
import { anklePosition, type Point } from './ankle-position.js';
import { footPitchFunction, type FootPitch } from './foot-pitch.js';
import { requireLeg, type Leg } from './leg.js';

/** The line a saddle (and with it the hip) moves along. */
export type SaddlePath =
  /** Up and down the seat tube: the line through `through` at this angle to the horizontal. 50–90. */
  | { readonly kind: 'along-seat-tube'; readonly seatTubeAngleDeg: number; readonly through?: Point }
  /** Straight up and down at this horizontal distance of the hip behind the bottom bracket. −100–500. */
  | { readonly kind: 'constant-setback'; readonly hipSetbackMm: number };

export interface HipSolution {
  readonly hip: Point;
  /** Hip joint to bottom bracket, straight. */
  readonly hipDistanceMm: number;
  /** Where in the turn the leg is straightest; before bottom dead centre (180). */
  readonly straightestAtCrankDeg: number;
}

const steps = 720;

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
 * @example hipForKneeFlexion({ thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
 *   { kind: 'constant', pitchDeg: 10 }, 35, { kind: 'along-seat-tube', seatTubeAngleDeg: 73 }).hipDistanceMm; // 813.4…
 */
export function hipForKneeFlexion(
  leg: Leg,
  pitch: FootPitch,
  minimumKneeFlexionDeg: number,
  path: SaddlePath,
): HipSolution {
  requireLeg(leg);
  requireRange('minimumKneeFlexionDeg', minimumKneeFlexionDeg, 5, 120);
  const { originX, originY, directionX, directionY } = lineOf(path);
  const pitchAt = footPitchFunction(pitch);
  const { thighMm: t, shankMm: s } = leg;
  const reachSquared = t * t + s * s + 2 * t * s * Math.cos(radiansOf(minimumKneeFlexionDeg));

  /** How far up the path the hip may be for this crank angle. */
  const limitAt = (crankRad: number): number => {
    const ankle = anklePosition(leg, crankRad, pitchAt(crankRad));
    const toX = ankle.xMm - originX;
    const toY = ankle.yMm - originY;
    const along = toX * directionX + toY * directionY;
    const across = toX * directionY - toY * directionX;
    const rest = reachSquared - across * across;
    if (rest < 0) {
      throw new FitMathError(
        'target.not-reachable',
        'minimumKneeFlexionDeg',
        'a flexion the leg can have on this saddle path',
      );
    }
    return along + Math.sqrt(rest);
  };

  const step = (2 * Math.PI) / steps;
  let lowest = Number.POSITIVE_INFINITY;
  let lowestAt = 0;
  for (let i = 0; i < steps; i += 1) {
    const limit = limitAt(i * step);
    if (limit < lowest) {
      lowest = limit;
      lowestAt = i * step;
    }
  }
  const before = limitAt(lowestAt - step);
  const after = limitAt(lowestAt + step);
  const curvature = before - 2 * lowest + after;
  const shift = curvature > 0 ? (0.5 * (before - after)) / curvature : 0;
  const straightestAt = lowestAt + shift * step;
  const along = lowest - 0.25 * (before - after) * shift;

  const hip = { xMm: originX + along * directionX, yMm: originY + along * directionY };
  return {
    hip,
    hipDistanceMm: Math.hypot(hip.xMm, hip.yMm),
    straightestAtCrankDeg: (straightestAt * 180) / Math.PI,
  };
}

function lineOf(path: SaddlePath): {
  originX: number;
  originY: number;
  directionX: number;
  directionY: number;
} {
  if (path.kind === 'constant-setback') {
    requireRange('hipSetbackMm', path.hipSetbackMm, -100, 500);
    return { originX: -path.hipSetbackMm, originY: 0, directionX: 0, directionY: 1 };
  }
  const angle = radiansOf(requireRange('seatTubeAngleDeg', path.seatTubeAngleDeg, 50, 90));
  return {
    originX: path.through?.xMm ?? 0,
    originY: path.through?.yMm ?? 0,
    directionX: -Math.cos(angle),
    directionY: Math.sin(angle),
  };
}
