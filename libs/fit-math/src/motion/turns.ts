import { FitMathError } from '../errors.js';
import { rowField, type Series } from './recording.js';

/** Fewer whole turns say nothing of how much they differ. House rule. */
const leastTurns = 3;
/** A crank read between two samples may fall back by noise, and must not advance so far that its way is in doubt. */
const mayFallDeg = 5;
const mayRiseDeg = 60;

/**
 * A crank angle that starts again each turn, run on past 360°.
 *
 * @throws FitMathError naming the row where the crank falls back or leaps
 */
export function runningCrankDeg(crankDeg: Series): Float64Array {
  const running = Float64Array.from(crankDeg);
  for (let i = 1; i < running.length; i += 1) {
    const before = running[i - 1] ?? 0;
    const step = (((((running[i] ?? 0) - before + 180) % 360) + 360) % 360) - 180;
    if (step < -mayFallDeg || step > mayRiseDeg) {
      throw new FitMathError(
        'input.out-of-range',
        rowField(i, 'crankDeg'),
        `from ${-mayFallDeg} to ${mayRiseDeg}° after the row before, pedalling forwards`,
      );
    }
    running[i] = before + step;
  }
  return running;
}

export interface Turns {
  /** Number of the first whole turn: it starts at `first * 360` of the running angle. */
  readonly first: number;
  readonly count: number;
}

/** @throws FitMathError when there are fewer than three whole turns */
export function wholeTurns(running: Float64Array): Turns {
  const first = Math.ceil((running[0] ?? 0) / 360);
  const count = Math.floor((running.at(-1) ?? 0) / 360) - first;
  if (count < leastTurns) {
    throw new FitMathError(
      'input.out-of-range',
      'turns',
      `at least ${leastTurns} whole turns, found ${Math.max(0, count)}`,
    );
  }
  return { first, count };
}

/**
 * A series read at equal steps of the crank over every whole turn, straight between samples.
 *
 * @returns turn after turn, `steps` values each
 */
export function overCrank(
  running: Float64Array,
  values: Series,
  { first, count }: Turns,
  steps: number,
): Float64Array {
  const read = new Float64Array(count * steps);
  let i = 0;
  for (let k = 0; k < read.length; k += 1) {
    const crankDeg = 360 * (first + k / steps);
    while ((running[i + 1] ?? Number.POSITIVE_INFINITY) < crankDeg) i += 1;
    const from = running[i] ?? 0;
    const to = running[i + 1] ?? from;
    const share = to > from ? (crankDeg - from) / (to - from) : 0;
    const value = values[i] ?? Number.NaN;
    read[k] = value + share * ((values[i + 1] ?? value) - value);
  }
  return read;
}
