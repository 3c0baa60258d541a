import { RideDataError } from '../errors.js';
import type { RawSample } from '../read/raw-recording.js';
import type { Channels, RideSample } from '../ride-recording.js';

export interface OnePerSecond {
  readonly samples: readonly RideSample[];
  /** Unix time of second 0, or the count the device began with. */
  readonly startSecond: number;
  readonly duplicates: number;
  readonly backward: number;
}

/** House rule: beyond this share of records that run backwards the clock was not one clock. */
const mostBackward = 0.1;

/**
 * At most one sample for each second of the clock, in order.
 *
 * Records within the same second are one: the mean of what they say of power, cadence, speed and heart rate, the last
 * of altitude, distance and place. A record whose second lies before the one already reached is left out.
 *
 * @throws RideDataError `ride.clock-unusable` when more than a tenth run backwards
 */
export function onePerSecond(raw: readonly RawSample[]): OnePerSecond {
  const startSecond = Math.floor((raw[0]?.atMs ?? 0) / 1000);
  const samples: RideSample[] = [];
  let same: RawSample[] = [];
  let second = 0;
  let duplicates = 0;
  let backward = 0;
  const close = (): void => {
    if (same.length > 0) samples.push({ second, ...merged(same) });
  };
  for (const sample of raw) {
    const at = Math.floor(sample.atMs / 1000) - startSecond;
    if (at < second) {
      backward += 1;
      continue;
    }
    if (at === second && same.length > 0) {
      duplicates += 1;
    } else if (at > second) {
      close();
      same = [];
      second = at;
    }
    same.push(sample);
  }
  close();
  if (backward > mostBackward * raw.length) {
    throw new RideDataError(
      'ride.clock-unusable',
      `${backward} of ${raw.length} records run backwards in time; the order cannot be told.`,
    );
  }
  return { samples, startSecond, duplicates, backward };
}

function merged(same: readonly RawSample[]): Channels {
  const known = (channel: keyof Channels): number[] =>
    same.map((sample) => sample[channel]).filter((value) => value !== null);
  const mean = (channel: keyof Channels): number | null => {
    const values = known(channel);
    return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
  };
  const last = (channel: keyof Channels): number | null => known(channel).at(-1) ?? null;
  return {
    powerW: mean('powerW'),
    cadenceRpm: mean('cadenceRpm'),
    speedMps: mean('speedMps'),
    heartRateBpm: mean('heartRateBpm'),
    altitudeM: last('altitudeM'),
    distanceM: last('distanceM'),
    latitudeDeg: last('latitudeDeg'),
    longitudeDeg: last('longitudeDeg'),
  };
}
