import type { RideRecording } from '../ride-recording.js';
import { gapPolicies } from './gap-policy.js';
import { powerGrid, within } from './power-grid.js';
import { travelledM } from './travelled.js';

export interface SteadySpeed {
  readonly method: 'speed where the load was steadiest';
  readonly startSecond: number | null;
  readonly durationS: number;
  readonly meanPowerW: number | null;
  /** Standard deviation of power, averaged over 30 s, divided by its mean. */
  readonly variation: number | null;
  readonly meanSpeedMps: number | null;
  readonly sentence: string;
}

const smoothingS = 30;

/** House rule: a steady effort on the road varies by no more than this once averaged over 30 s. */
export const usualLargestVariation = 0.05;

/**
 * Mean speed over the stretch of that length whose load was steadiest.
 *
 * @param durationS 60 or more
 * @param largestVariation above which no stretch counts as steady
 * @returns all null when no stretch without a gap is steady enough, or its length on the road is not known
 * @throws RangeError when the duration is too short
 * @example steadySpeed(ride, 600, usualLargestVariation).meanSpeedMps;
 */
export function steadySpeed(ride: RideRecording, durationS: number, largestVariation: number): SteadySpeed {
  if (!Number.isInteger(durationS) || durationS < 2 * smoothingS) {
    throw new RangeError(`the duration must be whole seconds, ${2 * smoothingS} or more`);
  }
  const method = 'speed where the load was steadiest';
  const grid = powerGrid(ride, { ...gapPolicies.uninterrupted, leastCounted: 1 });
  const smoothed = new Float64Array(grid.durationS + 1);
  const squares = new Float64Array(grid.durationS + 1);
  for (let end = smoothingS; end <= grid.durationS; end += 1) {
    const mean = within(grid.work, end - smoothingS, end) / smoothingS;
    smoothed[end] = (smoothed[end - 1] ?? 0) + mean;
    squares[end] = (squares[end - 1] ?? 0) + mean ** 2;
  }
  const values = durationS - smoothingS + 1;
  let startSecond: number | null = null;
  let least = largestVariation;
  for (let start = 0; start + durationS <= grid.durationS; start += 1) {
    const end = start + durationS;
    if (within(grid.measured, start, end) < durationS) continue;
    const mean = within(smoothed, end - values, end) / values;
    const variance = within(squares, end - values, end) / values - mean ** 2;
    const variation = mean > 0 ? Math.sqrt(Math.max(0, variance)) / mean : Infinity;
    if (variation < least || (startSecond === null && variation === least)) {
      least = variation;
      startSecond = start;
    }
  }
  const nothing = { method, durationS, meanPowerW: null, variation: null, meanSpeedMps: null } as const;
  if (startSecond === null) {
    return { ...nothing, startSecond, sentence: 'No stretch of this length was ridden at a steady load.' };
  }
  const from = startSecond;
  const stretch = ride.samples.filter(({ second }) => second >= from && second < from + durationS);
  const metres = travelledM(stretch);
  const seconds = (stretch.at(-1)?.second ?? 0) - (stretch[0]?.second ?? 0);
  if (metres === null || seconds === 0) {
    return { ...nothing, startSecond: null, sentence: 'The way ridden at a steady load is not known.' };
  }
  const meanPowerW = within(grid.work, from, from + durationS) / durationS;
  const meanSpeedMps = metres / seconds;
  const sentence = `At ${meanPowerW.toFixed(0)} W, steady within ${(100 * least).toFixed(0)} %, the mean speed was ${(3.6 * meanSpeedMps).toFixed(1)} km/h.`;
  return { method, startSecond, durationS, meanPowerW, variation: least, meanSpeedMps, sentence };
}
