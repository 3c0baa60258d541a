import type { RideRecording } from '../ride-recording.js';
import { powerDropoutSeconds } from '../series/power-faults.js';
import type { GapPolicy } from './gap-policy.js';
import { meanMaximalPower, type MeanMaximalPower } from './mean-maximal-power.js';

export interface Best20Minutes {
  readonly method: 'highest mean power of 1200 s of clock time';
  readonly best: MeanMaximalPower | null;
  /** Why there is none. */
  readonly reason: 'no power meter' | 'shorter than 20 minutes' | 'no 20 minutes without a gap' | null;
  /** Seconds within the window in which the meter may have lost contact, so that the mean may be too low. */
  readonly dropoutS: number;
  readonly sentence: string;
}

const durationS = 1200;

/**
 * @example best20Minutes(ride, gapPolicies.uninterrupted).sentence;
 *   // 'Best 20 minutes: 312 W from 0:31:36 on; power known for 100 % of them.'
 */
export function best20Minutes(ride: RideRecording, policy: GapPolicy): Best20Minutes {
  const method = 'highest mean power of 1200 s of clock time';
  const best = meanMaximalPower(ride, durationS, policy);
  if (best === null) {
    const reason = !ride.hasPower
      ? 'no power meter'
      : ride.durationS < durationS
        ? 'shorter than 20 minutes'
        : 'no 20 minutes without a gap';
    return { method, best, reason, dropoutS: 0, sentence: `No 20-minute power: ${reason}.` };
  }
  const { startSecond, meanW, coverage } = best;
  const dropoutS = powerDropoutSeconds(ride.samples).filter(
    (second) => second >= startSecond && second < startSecond + durationS,
  ).length;
  const known = `power known for ${(100 * coverage).toFixed(0)} % of them`;
  const lost = dropoutS === 0 ? '' : `; ${dropoutS} s look like lost contact`;
  return {
    method,
    best,
    reason: null,
    dropoutS,
    sentence: `Best 20 minutes: ${meanW.toFixed(0)} W from ${clock(startSecond)} on; ${known}${lost}.`,
  };
}

/** `1:02:03` */
function clock(seconds: number): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}
