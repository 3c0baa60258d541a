import { FitMathError } from '../errors.js';
import { formulaVersion } from '../formula-version.js';
import { requireRange } from '../require-range.js';
import type { RiderOnRoad, Road } from './road-power.js';
import { steadySpeedMps } from './steady-speed.js';

/** A part of a course over which road and wind stay the same. */
export interface Stretch extends Road {
  /** 1–1000000. */
  readonly lengthM: number;
}

export interface CourseTime {
  readonly formulaVersion: string;
  readonly durationS: number;
  readonly meanSpeedMps: number;
  readonly stretches: readonly { readonly speedMps: number; readonly durationS: number }[];
}

/**
 * Time over a course at one steady power, each stretch at its own steady speed. Speeding up and slowing down between
 * stretches is left out: it matters where stretches are shorter than a few hundred metres.
 *
 * @param stretches 1–10000, in the order ridden
 * @param powerW at the pedals. 1–2500
 * @throws FitMathError naming the input outside its range, by its stretch
 * @source steadySpeedMps
 * @check outside/air: five powers over 40 km worked apart; Jeukendrup & Martin 2001, by way of a secondary summary
 * @tolerance 0.06 s; 6 s
 * @example courseTime({ totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 }, [{ lengthM: 40000, gradient: 0,
 *   airDensityKgPerM3: 1.2, wind: { headwindMps: 0, crosswindMps: 0 } }], 250).durationS; // 3872.1…
 */
export function courseTime(rider: RiderOnRoad, stretches: readonly Stretch[], powerW: number): CourseTime {
  requireRange('stretches.length', stretches.length, 1, 10000);
  const ridden = stretches.map((stretch, index) => {
    requireRange(`stretches.${index}.lengthM`, stretch.lengthM, 1, 1_000_000);
    const speedMps = atStretch(index, () => steadySpeedMps(rider, stretch, powerW));
    return { speedMps, durationS: stretch.lengthM / speedMps };
  });
  const durationS = ridden.reduce((sum, stretch) => sum + stretch.durationS, 0);
  const lengthM = stretches.reduce((sum, stretch) => sum + stretch.lengthM, 0);
  return { formulaVersion, durationS, meanSpeedMps: lengthM / durationS, stretches: ridden };
}

function atStretch(index: number, solve: () => number): number {
  try {
    return solve();
  } catch (error) {
    if (!(error instanceof FitMathError)) throw error;
    throw new FitMathError(error.code, `stretches.${index}.${error.field}`, error.allowed);
  }
}
