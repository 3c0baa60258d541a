import type { RawRecording } from '../read/raw-recording.js';
import type { Gap, RideSample } from '../ride-recording.js';

/** Every step of more than a second, and whether the device was stopped in it. */
export function gapsOf(
  samples: readonly RideSample[],
  stops: RawRecording['stops'],
  startSecond: number,
): Gap[] {
  const stopped = stops.map(({ fromMs, toMs }) => ({
    from: Math.floor(fromMs / 1000) - startSecond,
    to: Math.floor(toMs / 1000) - startSecond,
  }));
  const gaps: Gap[] = [];
  let next = 0;
  samples.forEach(({ second: untilSecond }, i) => {
    const afterSecond = samples[i - 1]?.second ?? untilSecond;
    if (untilSecond - afterSecond <= 1) return;
    // Stops come in order; those that ended before this gap concern no later one either.
    while ((stopped[next]?.to ?? Infinity) <= afterSecond) next += 1;
    const from = stopped[next]?.from ?? Infinity;
    gaps.push({ afterSecond, untilSecond, paused: from < untilSecond });
  });
  return gaps;
}
