import type { RawSample } from '../read/raw-recording.js';
import type { Channels } from '../ride-recording.js';

/** House rule: what no rider and no road can do is a fault of the device, and missing. Both ends are allowed. */
const possible: Readonly<Record<keyof Channels, readonly [low: number, high: number]>> = {
  powerW: [0, 3000],
  cadenceRpm: [0, 250],
  speedMps: [0, 40],
  altitudeM: [-500, 9000],
  heartRateBpm: [20, 250],
  distanceM: [0, 3_000_000],
  latitudeDeg: [-90, 90],
  longitudeDeg: [-180, 180],
};

const channels = Object.keys(possible) as (keyof Channels)[];

export interface Plausible {
  readonly samples: readonly RawSample[];
  /** Records of which something was impossible. */
  readonly impossible: number;
}

/** Makes impossible values missing. A heart rate of 0 is how devices say that there is no strap; it is not counted. */
export function plausible(raw: readonly RawSample[]): Plausible {
  let impossible = 0;
  const samples = raw.map((sample) => {
    const wrong = channels.filter((channel) => {
      const value = sample[channel];
      const [low, high] = possible[channel];
      return value !== null && !(value >= low && value <= high);
    });
    if (wrong.length === 0) return sample;
    if (wrong.some((channel) => channel !== 'heartRateBpm' || sample.heartRateBpm !== 0)) impossible += 1;
    return { ...sample, ...Object.fromEntries(wrong.map((channel) => [channel, null])) };
  });
  return { samples, impossible };
}
