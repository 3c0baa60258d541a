import { radiansOf } from '../angles.js';
import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';

/**
 * How the rider holds the foot over a revolution: angle of the sole to the horizontal, **toe-down positive**, −60–80.
 * Readings are taken at crank 0° (top), 90°, 180°, 270°; a series holds readings at equal steps from 0°.
 */
export type FootPitch =
  | { readonly kind: 'constant'; readonly pitchDeg: number }
  | { readonly kind: 'clock'; readonly readingsDeg: readonly [number, number, number, number] }
  | { readonly kind: 'series'; readonly readingsDeg: readonly number[] };

/** @throws FitMathError when a reading is outside −60–80° or a series has fewer than 3 or more than 720 readings */
export function requireFootPitch(pitch: FootPitch): void {
  if (pitch.kind === 'constant') {
    requireRange('footPitch.pitchDeg', pitch.pitchDeg, -60, 80);
    return;
  }
  const { length } = pitch.readingsDeg;
  if (length < 3 || length > 720) {
    throw new FitMathError(
      'input.out-of-range',
      'footPitch.readingsDeg',
      'from 3 to 720 readings at equal steps',
    );
  }
  pitch.readingsDeg.forEach((reading, index) =>
    requireRange(`footPitch.readingsDeg.${index}`, reading, -60, 80),
  );
}

/**
 * The foot pitch as a function of the crank angle: periodic, smooth, through every reading.
 *
 * Between readings it is the trigonometric polynomial of least degree through them, which has no jump at 360° and
 * of which four clock readings determine exactly the terms of one and (its cosine part) of two cycles a turn.
 *
 * @param pitch already checked by `requireFootPitch`
 * @returns pitch in radians for the cosine and sine of a crank angle (inside this library only)
 * @source trigonometric interpolation at equidistant nodes, Henrici 1979, SIAM Review 21(4):481–527 (citation from
 *   memory)
 * @check src/leg-chain/revolution: through every one of 720 readings, no jump at 360°
 * @tolerance 1e-9 rad
 */
export function footPitchFunction(pitch: FootPitch): (crankCosine: number, crankSine: number) => number {
  if (pitch.kind === 'constant') {
    const constant = radiansOf(pitch.pitchDeg);
    return () => constant;
  }
  return trigonometricInterpolant(pitch.readingsDeg.map(radiansOf));
}

/** The same pattern with every reading turned by some degrees, toe-down positive. */
export function shiftedFootPitch(pitch: FootPitch, byDeg: number): FootPitch {
  if (pitch.kind === 'constant') return { kind: 'constant', pitchDeg: pitch.pitchDeg + byDeg };
  return { kind: 'series', readingsDeg: pitch.readingsDeg.map((reading) => reading + byDeg) };
}

function trigonometricInterpolant(values: readonly number[]): (cosine: number, sine: number) => number {
  const n = values.length;
  const highest = Math.floor(n / 2);
  const cosines: number[] = [];
  const sines: number[] = [];
  for (let k = 0; k <= highest; k += 1) {
    // The mean, and for an even count the highest cosine, carry half the weight of the rest.
    const weight = (k === 0 || 2 * k === n ? 1 : 2) / n;
    let cosine = 0;
    let sine = 0;
    values.forEach((value, j) => {
      cosine += value * Math.cos((2 * Math.PI * k * j) / n);
      sine += value * Math.sin((2 * Math.PI * k * j) / n);
    });
    cosines.push(weight * cosine);
    sines.push(2 * k === n ? 0 : weight * sine);
  }
  return (cosine, sine) => {
    // Cosine and sine of k times the angle, by turning on from k − 1: the same to 1e-12 and far cheaper.
    let x = 1;
    let y = 0;
    let sum = 0;
    for (let k = 0; k <= highest; k += 1) {
      sum += (cosines[k] ?? 0) * x + (sines[k] ?? 0) * y;
      const turned = x * cosine - y * sine;
      y = x * sine + y * cosine;
      x = turned;
    }
    return sum;
  };
}
