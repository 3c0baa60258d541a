import type { RideRecording } from '../ride-recording.js';
import type { GapPolicy } from './gap-policy.js';
import { powerGrid, within } from './power-grid.js';

export interface MeanMaximalPower {
  readonly durationS: number;
  readonly meanW: number;
  /** First second of the window; the earliest of equals. */
  readonly startSecond: number;
  /** Share of the window's seconds of which power was measured or bridged. 0–1. */
  readonly coverage: number;
  readonly policy: GapPolicy;
}

/**
 * The highest mean power over any window of that length on the clock: from second t to t + duration − 1. Windows are
 * seconds, never numbers of samples, which a pause would make too short.
 *
 * @param durationS whole seconds, 1 or more
 * @returns null without power, when the ride is shorter, or when the policy lets no window stand
 * @throws RangeError when the duration is no whole number of seconds
 * @source usual in power profiling; the wording of the window is ours
 * @example meanMaximalPower(ride, 1200, gapPolicies.uninterrupted)?.meanW;
 */
export function meanMaximalPower(
  ride: RideRecording,
  durationS: number,
  policy: GapPolicy,
): MeanMaximalPower | null {
  if (!Number.isInteger(durationS) || durationS < 1)
    throw new RangeError('the duration must be whole seconds');
  if (!ride.hasPower) return null;
  const grid = powerGrid(ride, policy);
  let best: MeanMaximalPower | null = null;
  for (let start = 0; start + durationS <= grid.durationS; start += 1) {
    const end = start + durationS;
    const counted = within(grid.counted, start, end);
    if (within(grid.breaks, start, end) > 0 || counted === 0 || counted < policy.leastCounted * durationS)
      continue;
    const meanW = within(grid.work, start, end) / counted;
    if (best === null || meanW > best.meanW) {
      const coverage = within(grid.measured, start, end) / durationS;
      best = { durationS, meanW, startSecond: start, coverage, policy };
    }
  }
  return best;
}
