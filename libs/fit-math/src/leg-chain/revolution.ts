import { radiansOf } from '../angles.js';
import { anglesAt } from './joint-angles.js';
import { anklePosition, type Point } from './ankle-position.js';
import { footPitchFunction, type FootPitch } from './foot-pitch.js';
import { requireLeg, type Leg } from './leg.js';

export interface RevolutionSample {
  readonly crankDeg: number;
  readonly kneeFlexionDeg: number;
  readonly thighElevationDeg: number;
  readonly ankleAngleDeg: number;
}

/**
 * Joint angles over a whole turn at equal steps from top dead centre.
 *
 * @param steps 4–3600
 * @throws FitMathError when an input is out of range or the leg cannot reach; the message names the crank angle
 */
export function revolution(leg: Leg, pitch: FootPitch, hip: Point, steps = 360): RevolutionSample[] {
  requireLeg(leg);
  const pitchAt = footPitchFunction(pitch);
  return Array.from({ length: steps }, (_, i) => {
    const crankDeg = (360 * i) / steps;
    const crankRad = radiansOf(crankDeg);
    const pitchRad = pitchAt(crankRad);
    return { crankDeg, ...anglesAt(leg, hip, anklePosition(leg, crankRad, pitchRad), pitchRad, crankDeg) };
  });
}

/**
 * The straightest point of the turn: the least knee flexion and where it is, within half a step of 0.5°.
 *
 * @throws FitMathError as `revolution`
 */
export function straightest(leg: Leg, pitch: FootPitch, hip: Point): RevolutionSample {
  const samples = revolution(leg, pitch, hip, 720);
  return samples.reduce((least, sample) => (sample.kneeFlexionDeg < least.kneeFlexionDeg ? sample : least));
}
