import { FitMathError } from '../errors.js';

/**
 * Centre and radius of the circle a pedal spindle runs on: the algebraic least-squares circle.
 *
 * @returns in the unit of the points
 * @throws FitMathError when the points lie on no circle, such as a spindle that stands still
 * @source Kåsa 1976, IEEE Trans Instrum Meas 25:8–14 (citation from memory)
 * @check src/motion/motion: the crank of a filmed rider
 * @tolerance 1e-6 mm
 */
export function crankCentre(
  x: Float64Array,
  y: Float64Array,
): { readonly x: number; readonly y: number; readonly radius: number } {
  const n = x.length;
  const meanX = x.reduce((sum, value) => sum + value, 0) / n;
  const meanY = y.reduce((sum, value) => sum + value, 0) / n;
  // About the mean the normal equations shrink to two.
  let xx = 0;
  let yy = 0;
  let xy = 0;
  let xz = 0;
  let yz = 0;
  for (let i = 0; i < n; i += 1) {
    const u = (x[i] ?? Number.NaN) - meanX;
    const v = (y[i] ?? Number.NaN) - meanY;
    const z = u * u + v * v;
    xx += u * u;
    yy += v * v;
    xy += u * v;
    xz += u * z;
    yz += v * z;
  }
  const determinant = xx * yy - xy * xy;
  if (!(determinant > 1e-6 * (xx + yy) ** 2)) {
    throw new FitMathError('input.out-of-range', 'markers.spindle', 'a spindle that runs round a circle');
  }
  const u = (xz * yy - yz * xy) / (2 * determinant);
  const v = (yz * xx - xz * xy) / (2 * determinant);
  return { x: meanX + u, y: meanY + v, radius: Math.sqrt(u * u + v * v + (xx + yy) / n) };
}
