import type { RideSample } from '../ride-recording.js';

/** House rule: a rider winds up over seconds; a lone second this high over both its neighbours is a fault. */
const spike = { fromW: 1000, timesNeighbours: 2.5 } as const;

/** Makes lone spikes of power missing, so that they are neither a best second nor a mean. */
export function withoutSpikes(samples: readonly RideSample[]): {
  samples: readonly RideSample[];
  spikes: number;
} {
  let spikes = 0;
  const kept = samples.map((sample, i) => {
    const { powerW, second } = sample;
    const before = samples[i - 1];
    const after = samples[i + 1];
    if (powerW === null || powerW < spike.fromW || before?.powerW == null || after?.powerW == null)
      return sample;
    if (before.second !== second - 1 || after.second !== second + 1) return sample;
    if (powerW < spike.timesNeighbours * Math.max(before.powerW, after.powerW)) return sample;
    spikes += 1;
    return { ...sample, powerW: null };
  });
  return { samples: kept, spikes };
}

/** House rule: a freewheel lets the legs turn on for a moment; longer, and the meter has lost contact. */
const dropout = { fromS: 4, cadenceRpm: 40 } as const;

/**
 * Seconds in which the pedals turned and the meter said 0 W: perhaps lost contact, perhaps idle spinning. They are
 * told and stay 0.
 */
export function powerDropoutSeconds(samples: readonly RideSample[]): number[] {
  const found: number[] = [];
  let run: number[] = [];
  const close = (): void => {
    if (run.length >= dropout.fromS) found.push(...run);
    run = [];
  };
  for (const { second, powerW, cadenceRpm } of samples) {
    const suspect = powerW === 0 && cadenceRpm !== null && cadenceRpm >= dropout.cadenceRpm;
    if (!suspect || second !== (run.at(-1) ?? second - 1) + 1) close();
    if (suspect) run.push(second);
  }
  close();
  return found;
}
