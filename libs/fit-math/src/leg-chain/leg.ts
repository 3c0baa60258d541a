import { requireRange } from '../require-range.js';

/**
 * The planar leg between hip and pedal spindle. `x` forward, `y` up, origin at the bottom bracket.
 */
export interface Leg {
  /** Hip joint to knee joint. 200–700. */
  readonly thighMm: number;
  /** Knee joint to ankle joint. 200–700. */
  readonly shankMm: number;
  /** Along the sole, from the cleat centre back to below the ankle joint. −50–300. */
  readonly footLeverMm: number;
  /** Ankle joint above the pedal spindle with the sole level. 30–250. */
  readonly ankleAboveSpindleMm: number;
  /** Bottom bracket to pedal spindle. 80–250. */
  readonly crankLengthMm: number;
}

/** @throws FitMathError naming the first input outside its range */
export function requireLeg(leg: Leg): void {
  requireRange('thighMm', leg.thighMm, 200, 700);
  requireRange('shankMm', leg.shankMm, 200, 700);
  requireRange('footLeverMm', leg.footLeverMm, -50, 300);
  requireRange('ankleAboveSpindleMm', leg.ankleAboveSpindleMm, 30, 250);
  requireRange('crankLengthMm', leg.crankLengthMm, 80, 250);
}
