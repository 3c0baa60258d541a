import { degreesOf, radiansOf } from '../angles.js';
import { requireRange } from '../require-range.js';
import { ankleOverTurn, type Point } from './ankle-position.js';
import { requireFootPitch, type FootPitch } from './foot-pitch.js';
import { anglesAt, requireHip } from './joint-angles.js';
import { requireLeg, type Leg } from './leg.js';

/** The points of the leg at one crank angle, from the bottom bracket. */
export interface LegPoints {
  readonly hip: Point;
  readonly knee: Point;
  readonly ankle: Point;
  readonly spindle: Point;
  /** Sole to the horizontal, toe-down positive. */
  readonly footPitchDeg: number;
}

/**
 * Where the joints are at one crank angle: what a drawing needs.
 *
 * @param hip hip joint from the bottom bracket, `x` forward (so negative), `y` up
 * @param crankDeg 0 = top dead centre, in the pedalling direction
 * @throws FitMathError when an input is out of range or the leg cannot reach
 * @source jointAngles, with the knee where the thigh's elevation puts it
 * @check src/leg-chain/leg-points: lengths of the segments and the angle of the knee, over the turn
 * @tolerance 1e-6 mm
 * @example legPoints({ thighMm: 434, shankMm: 425, footLeverMm: 140, ankleAboveSpindleMm: 120, crankLengthMm: 172.5 },
 *   { kind: 'constant', pitchDeg: 10 }, { xMm: -237.8, yMm: 777.9 }, 169).knee; // { xMm: -33.28…, yMm: 395.1… }
 */
export function legPoints(leg: Leg, pitch: FootPitch, hip: Point, crankDeg: number): LegPoints {
  requireLeg(leg);
  requireFootPitch(pitch);
  requireHip(hip);
  requireRange('crankDeg', crankDeg, -3600, 3600);
  const crank = radiansOf(crankDeg);
  const ankle = ankleOverTurn(leg, pitch)(Math.cos(crank), Math.sin(crank));
  const thigh = radiansOf(anglesAt(leg, hip, ankle, crankDeg).thighElevationDeg);
  return {
    hip,
    knee: {
      xMm: hip.xMm + leg.thighMm * Math.cos(thigh),
      yMm: hip.yMm + leg.thighMm * Math.sin(thigh),
    },
    ankle: { xMm: ankle.xMm, yMm: ankle.yMm },
    spindle: { xMm: leg.crankLengthMm * Math.sin(crank), yMm: leg.crankLengthMm * Math.cos(crank) },
    footPitchDeg: degreesOf(ankle.pitchRad),
  };
}
