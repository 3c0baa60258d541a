import type { RideRecording } from '../ride-recording.js';
import type { GapPolicy } from './gap-policy.js';

/** What became of each second of the clock; running sums, so that any window costs the same. */
export interface PowerGrid {
  readonly durationS: number;
  /** Sum of power before second i, J. */
  readonly work: Float64Array;
  /** Seconds before i whose power was measured or bridged. */
  readonly measured: Float64Array;
  /** Seconds before i that a mean divides by. */
  readonly counted: Float64Array;
  /** Seconds before i that no window may hold. */
  readonly breaks: Float64Array;
}

/** Power for every second from first to last sample, by the policy. */
export function powerGrid({ durationS, samples, gaps }: RideRecording, policy: GapPolicy): PowerGrid {
  const watts = new Float64Array(durationS).fill(NaN);
  const unrecorded = new Uint8Array(durationS);
  for (const { second, powerW } of samples) if (powerW !== null) watts[second] = powerW;
  for (const { afterSecond, untilSecond, paused } of gaps) {
    const stepS = untilSecond - afterSecond;
    const from = watts[afterSecond] ?? NaN;
    const to = watts[untilSecond] ?? NaN;
    for (let second = afterSecond + 1; second < untilSecond; second += 1) {
      if (!paused && stepS <= policy.bridgeStepsUpToS) {
        watts[second] = from + ((to - from) * (second - afterSecond)) / stepS;
      } else {
        unrecorded[second] = 1;
      }
    }
  }
  const grid = {
    durationS,
    work: new Float64Array(durationS + 1),
    measured: new Float64Array(durationS + 1),
    counted: new Float64Array(durationS + 1),
    breaks: new Float64Array(durationS + 1),
  };
  for (let second = 0; second < durationS; second += 1) {
    const power = watts[second] ?? NaN;
    const measured = !Number.isNaN(power);
    const isZero =
      unrecorded[second] === 1
        ? policy.unrecordedSeconds === 'are zero'
        : policy.powerlessSeconds === 'are zero';
    const breaks = unrecorded[second] === 1 && policy.unrecordedSeconds === 'break the window';
    add(grid.work, second, measured ? power : 0);
    add(grid.measured, second, measured ? 1 : 0);
    add(grid.counted, second, measured || isZero ? 1 : 0);
    add(grid.breaks, second, breaks ? 1 : 0);
  }
  return grid;
}

function add(sums: Float64Array, second: number, amount: number): void {
  sums[second + 1] = (sums[second] ?? 0) + amount;
}

/** Of seconds `from` (counted) to `to` (not counted). */
export const within = (sums: Float64Array, from: number, to: number): number =>
  (sums[to] ?? NaN) - (sums[from] ?? NaN);
