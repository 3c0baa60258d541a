import { degreesOf, radiansOf } from '../angles.js';
import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';
import { ankleOverTurn, type HeldAnkle, type Point } from './ankle-position.js';
import { requireFootPitch, type FootPitch } from './foot-pitch.js';
import { requireLeg, type Leg } from './leg.js';

export interface JointAngles {
  /** 0 = straight leg. 0–180. */
  readonly kneeFlexionDeg: number;
  /** Thigh above the horizontal, knee in front of the hip: −90 (hanging straight down) to 90. */
  readonly thighElevationDeg: number;
  /** Between shank and sole, ankle as the corner; smaller = more dorsiflexed. 0–180. */
  readonly ankleAngleDeg: number;
}

/**
 * The three joint angles at one crank angle, the knee on its forward branch.
 *
 * @param hip hip joint from the bottom bracket, `x` forward (so negative), `y` up
 * @param crankDeg 0 = top dead centre, in the pedalling direction
 * @throws FitMathError `leg.cannot-reach` with the crank angle when hip and ankle are farther apart than the leg is
 *   long, or nearer than its segments differ
 * @source law of cosines on hip, knee, ankle
 * @check outside/geometry-package: circles intersected; outside/leg-chain: two-link geometry, Ferrer-Roca et al. 2014,
 *   Bini & Hume 2016
 * @tolerance 1e-6°; 0.006 mm/°; direction and size; their SDs
 * @example jointAngles({ thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
 *   { kind: 'constant', pitchDeg: 10 }, { xMm: -237.8, yMm: 777.9 }, 169).kneeFlexionDeg; // 34.98…
 */
export function jointAngles(leg: Leg, pitch: FootPitch, hip: Point, crankDeg: number): JointAngles {
  requireLeg(leg);
  requireFootPitch(pitch);
  requireHip(hip);
  requireRange('crankDeg', crankDeg, -3600, 3600);
  const crankRad = radiansOf(crankDeg);
  const ankle = ankleOverTurn(leg, pitch)(Math.cos(crankRad), Math.sin(crankRad));
  const { kneeFlexionDeg, thighElevationDeg, ankleAngleDeg } = anglesAt(leg, hip, ankle, crankDeg);
  return { kneeFlexionDeg, thighElevationDeg, ankleAngleDeg };
}

/** @throws FitMathError naming the coordinate outside its range */
export function requireHip(hip: Point): void {
  requireRange('hip.xMm', hip.xMm, -800, 400);
  requireRange('hip.yMm', hip.yMm, 100, 1600);
}

/** The same with its crank angle, from an ankle already placed and inputs already checked. */
export function anglesAt(
  leg: Leg,
  hip: Point,
  ankle: HeldAnkle,
  crankDeg: number,
): JointAngles & { readonly crankDeg: number } {
  const { thighMm: t, shankMm: s } = leg;
  const dx = ankle.xMm - hip.xMm;
  const dy = ankle.yMm - hip.yMm;
  const squared = dx * dx + dy * dy;
  const kneeCosine = (t * t + s * s - squared) / (2 * t * s);
  if (!(kneeCosine >= -1 && kneeCosine <= 1)) throw cannotReach(leg, squared, crankDeg);
  const flexion = Math.PI - Math.acos(kneeCosine);
  const hipCorner = Math.acos(Math.min(1, (t * t + squared - s * s) / (2 * t * Math.sqrt(squared))));
  // The knee lies forward of the line from hip to ankle, and the shank turns back from the thigh by the flexion.
  const thigh = Math.atan2(dy, dx) + hipCorner;
  const shankUp = thigh - flexion + Math.PI;
  return {
    crankDeg,
    kneeFlexionDeg: degreesOf(flexion),
    thighElevationDeg: degreesOf(thigh),
    // The sole points forward and, toe-down, below the horizontal.
    ankleAngleDeg: degreesOf(shankUp + ankle.pitchRad),
  };
}

export function cannotReach({ thighMm, shankMm }: Leg, squaredMm: number, crankDeg: number): FitMathError {
  return new FitMathError(
    'leg.cannot-reach',
    'hip',
    `hip and ankle between ${Math.abs(thighMm - shankMm).toFixed(0)} and ${(thighMm + shankMm).toFixed(0)} mm apart ` +
      `(${Math.sqrt(squaredMm).toFixed(0)} mm at crank ${crankDeg.toFixed(0)}°)`,
  );
}
