import { ankleOverTurn, type FootAndCrank } from './ankle-position.js';
import type { FootPitch } from './foot-pitch.js';

/** Where in a turn the solvers look: every 0.5° from top dead centre. */
export const turnSteps = 720;
export const turnStepRad = (2 * Math.PI) / turnSteps;

const sines = Float64Array.from({ length: turnSteps }, (_, i) => Math.sin(i * turnStepRad));
const cosines = Float64Array.from({ length: turnSteps }, (_, i) => Math.cos(i * turnStepRad));

/**
 * The ankle joint over a whole turn, one place a step: `ankleOverTurn` at every step. It does not depend on thigh,
 * shank or saddle, so that many questions about one foot can share it.
 */
export interface AnkleTurn {
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
}

/** From inputs already checked. */
export function ankleTurn(leg: FootAndCrank, pitch: FootPitch): AnkleTurn {
  const ankleAt = ankleOverTurn(leg, pitch);
  const xMm = new Float64Array(turnSteps);
  const yMm = new Float64Array(turnSteps);
  for (let i = 0; i < turnSteps; i += 1) {
    const ankle = ankleAt(cosines[i] ?? 0, sines[i] ?? 0);
    xMm[i] = ankle.xMm;
    yMm[i] = ankle.yMm;
  }
  return { xMm, yMm };
}

/**
 * The place of a periodic curve's extreme between its steps, by the parabola through the step and its neighbours.
 *
 * @returns shift in steps from the middle one, and what to add to its value
 */
export function vertex(
  before: number,
  middle: number,
  after: number,
): { readonly shift: number; readonly add: number } {
  const curvature = before - 2 * middle + after;
  const shift = curvature === 0 ? 0 : (0.5 * (before - after)) / curvature;
  return Math.abs(shift) <= 1 ? { shift, add: -0.25 * (before - after) * shift } : { shift: 0, add: 0 };
}
