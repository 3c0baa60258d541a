import type { Leg } from './leg.js';

export interface Point {
  readonly xMm: number;
  readonly yMm: number;
}

/**
 * Where the ankle joint is, from the bottom bracket: the spindle's place plus the foot held at its pitch.
 *
 * @param crankRad 0 at top dead centre, increasing in the pedalling direction
 * @param pitchRad sole to the horizontal, toe-down positive
 * @source planar linkage with the foot as a rigid link, after Hull & Jorge 1985, J Biomech 18:631–644 (citation from
 *   memory); the crank angle is taken from the vertical as there
 * @check outside/geometry-package: spindle and foot turned as points
 * @tolerance 1e-6°
 */
export function anklePosition(leg: Leg, crankRad: number, pitchRad: number): Point {
  const { footLeverMm: a, ankleAboveSpindleMm: v, crankLengthMm: c } = leg;
  const cosine = Math.cos(pitchRad);
  const sine = Math.sin(pitchRad);
  return {
    xMm: c * Math.sin(crankRad) - a * cosine + v * sine,
    yMm: c * Math.cos(crankRad) + a * sine + v * cosine,
  };
}
