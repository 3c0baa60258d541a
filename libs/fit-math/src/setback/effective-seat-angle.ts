import { degreesOf, radiansOf } from '../angles.js';
import { requireRange } from '../require-range.js';

/**
 * A saddle's reference point as the two distances one measures with plumb line and tape.
 */
export interface SaddlePlace {
  /** Horizontal, behind the bottom bracket; negative = in front. −200–500. */
  readonly setbackMm: number;
  /** Vertical, above the bottom bracket. 300–1100. */
  readonly riseMm: number;
}

/**
 * Setback and rise of a saddle height along an effective seat angle.
 *
 * @param saddleHeightMm straight from bottom bracket to the reference point. 300–1100
 * @param effectiveSeatAngleDeg of that straight line to the horizontal. 50–100; above 90 the point is in front
 * @throws FitMathError naming the input outside its range
 * @source trigonometry
 * @check outside/setback: 740 mm at 73°
 * @tolerance 0.05 mm
 * @example saddlePlace(740, 73).setbackMm; // 216.35…
 */
export function saddlePlace(saddleHeightMm: number, effectiveSeatAngleDeg: number): SaddlePlace {
  requireRange('saddleHeightMm', saddleHeightMm, 300, 1100);
  const angle = radiansOf(requireRange('effectiveSeatAngleDeg', effectiveSeatAngleDeg, 50, 100));
  return { setbackMm: saddleHeightMm * Math.cos(angle), riseMm: saddleHeightMm * Math.sin(angle) };
}

/**
 * The inverse: saddle height and effective seat angle of a measured place.
 *
 * @returns degrees to the horizontal, above 90 = in front of the bottom bracket
 * @throws FitMathError naming the input outside its range
 * @source trigonometry
 * @check outside/setback: a 3-4-5 triangle; src/setback/setback: undone
 * @tolerance 0.0001°; 1e-9 mm
 * @example effectiveSeatAngle({ setbackMm: 450, riseMm: 600 }).saddleHeightMm; // 750
 */
export function effectiveSeatAngle(place: SaddlePlace): {
  readonly saddleHeightMm: number;
  readonly effectiveSeatAngleDeg: number;
} {
  const setbackMm = requireRange('setbackMm', place.setbackMm, -200, 500);
  const riseMm = requireRange('riseMm', place.riseMm, 300, 1100);
  return {
    saddleHeightMm: Math.hypot(setbackMm, riseMm),
    effectiveSeatAngleDeg: degreesOf(Math.atan2(riseMm, setbackMm)),
  };
}
