import { requireRange } from '../require-range.js';

/** A figure that is no measurement: a best guess and the range it may well lie in. */
export interface Estimate {
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What an unmeasured rider shows to the wind. House rule: breadth seen from in front at hip and thigh, both legs,
 * and drag over area of a rider (0.9 in Martin et al. 1998, about a tenth either way).
 */
export const usualSilhouette = {
  hipAndThighWidthMm: { estimate: 360, low: 300, high: 430 },
  dragCoefficient: { estimate: 0.9, low: 0.8, high: 1 },
} as const satisfies Record<string, Estimate>;

export interface Silhouette {
  /** Width shown to the wind at hip and thigh. 150–700. */
  readonly hipAndThighWidthMm: Estimate;
  /** Drag over area. 0.3–1.5. */
  readonly dragCoefficient: Estimate;
}

/**
 * Change of drag area when saddle and bars come down together.
 *
 * The torso keeps its angle, so the silhouette loses a strip as high as the change and as wide as the rider shows at
 * hip and thigh. Tunnel work finds no law from bar height to drag that holds across riders (Underwood & Jermy 2013,
 * Sports Eng 16(2):81–90), so the range always reaches to no change at all.
 *
 * @param loweredMm saddle and bars both, vertical; negative = raised. −200–200
 * @returns m²; negative = less drag. `low` is the algebraically least
 * @throws FitMathError naming the input outside its range
 * @source house rule
 * @check nothing published to hold it to; src/air/air: mirrored, reaching to nothing
 * @tolerance exact
 * @example dragAreaChangeM2(10).estimate; // -0.00324…
 */
export function dragAreaChangeM2(loweredMm: number, silhouette: Silhouette = usualSilhouette): Estimate {
  requireRange('loweredMm', loweredMm, -200, 200);
  requireEstimate('hipAndThighWidthMm', silhouette.hipAndThighWidthMm, 150, 700);
  requireEstimate('dragCoefficient', silhouette.dragCoefficient, 0.3, 1.5);
  const { hipAndThighWidthMm: width, dragCoefficient: coefficient } = silhouette;
  const changeM2 = (widthMm: number, dragCoefficient: number): number =>
    // 0 − keeps an unmoved saddle from answering −0.
    0 - dragCoefficient * (widthMm / 1000) * (loweredMm / 1000);
  const farthest = changeM2(width.high, coefficient.high);
  return {
    estimate: changeM2(width.estimate, coefficient.estimate),
    low: Math.min(0, farthest),
    high: Math.max(0, farthest),
  };
}

/** @throws FitMathError when a figure is outside its range or the three are out of order */
export function requireEstimate(field: string, value: Estimate, minimum: number, maximum: number): void {
  requireRange(`${field}.low`, value.low, minimum, maximum);
  requireRange(`${field}.high`, value.high, value.low, maximum);
  requireRange(`${field}.estimate`, value.estimate, value.low, value.high);
}
