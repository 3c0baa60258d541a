import { FitMathError } from '../errors.js';
import { requireRange } from '../require-range.js';

/** A column of numbers, one for each sample. */
export type Series = readonly number[];

export type MarkerName = 'hip' | 'knee' | 'ankle' | 'heel' | 'toe' | 'spindle';

/** Places of one marker in the recording's own unit and axes. */
export interface MarkerTrack {
  readonly x: Series;
  readonly y: Series;
}

/** Marker places over time from any system that films one side. */
export interface MarkerRecording {
  readonly kind: 'markers';
  readonly timeS: Series;
  readonly markers: Readonly<Record<MarkerName, MarkerTrack>>;
}

export type AngleName = 'kneeFlexionDeg' | 'thighElevationDeg' | 'ankleAngleDeg' | 'footPitchDeg';

/**
 * Angles over time from a system that works them out itself, in the senses of the leg chain: knee 0 = straight, thigh
 * above the horizontal, ankle between shank and sole, sole toe-down positive. The crank may start again at 0 each turn.
 */
export interface AngleRecording extends Readonly<Record<AngleName, Series>> {
  readonly kind: 'angles';
  readonly timeS: Series;
  /** 0 = top dead centre, rising in the pedalling direction. */
  readonly crankDeg: Series;
}

export type Recording = MarkerRecording | AngleRecording;

/** Where a recording is at fault: rows are its samples counted from 1, a header not counted. */
export const rowField = (index: number, column: string): string => `rows.${index + 1}.${column}`;

const greatestSamples = 200_000;
/** Beyond what pixels, seconds or degrees of a recording come to. */
const greatestValue = 1e7;

/**
 * Let a recording through whose columns are equally long, hold numbers throughout, and whose time rises without a gap.
 *
 * @throws FitMathError naming the row and the column at fault
 */
export function requireWhole(timeS: Series, columns: Readonly<Record<string, Series>>): void {
  const samples = requireRange('timeS.length', timeS.length, 30, greatestSamples);
  for (const [name, series] of Object.entries({ timeS, ...columns })) {
    if (series.length !== samples) {
      throw new FitMathError('input.out-of-range', name, `as many values as times, ${samples}`);
    }
    const missing = series.findIndex((value) => !Number.isFinite(value));
    if (missing !== -1) throw new FitMathError('input.not-a-number', rowField(missing, name), 'a number');
    const absurd = series.findIndex((value) => Math.abs(value) > greatestValue);
    if (absurd !== -1) {
      throw new FitMathError('input.out-of-range', rowField(absurd, name), `within ±${greatestValue}`);
    }
  }
  const steps = timeS.slice(1).map((time, i) => time - (timeS[i] ?? time));
  const usual = median(steps);
  const broken = steps.findIndex((step) => !(step > 0 && step <= 1.5 * usual));
  if (broken !== -1) {
    throw new FitMathError(
      'input.out-of-range',
      rowField(broken + 1, 'timeS'),
      `later than the row before by at most ${(1.5 * usual).toFixed(4)} s: no gap, no step back`,
    );
  }
}

export function median(values: Series): number {
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}
