import { describe, expect, it } from '@jest/globals';
import { readRide } from '@studio/ride-data';
import { bytesOf, csvFile, fitFile, gpxFile, tcxFile, type WrittenSecond } from './writers.js';

// House promise: six hours at one record a second are read in well under a second.
const hours = 6;
const seconds: readonly WrittenSecond[] = Array.from({ length: hours * 3600 }, (_, second) => ({
  second,
  powerW: 150 + (second % 90),
  cadenceRpm: 85,
  heartRateBpm: 140,
  speedMps: 8.5,
  altitudeM: 400,
}));

describe(`a recording of ${hours} hours`, () => {
  it.each([
    ['fit', fitFile(seconds)],
    ['tcx', bytesOf(tcxFile(seconds))],
    ['gpx', bytesOf(gpxFile(seconds))],
    ['csv', bytesOf(csvFile(seconds))],
  ] as const)('as %s is read within a second, the best of three', async (_, bytes) => {
    let best = Infinity;
    for (let i = 0; i < 3; i += 1) {
      const started = performance.now();
      expect((await readRide([bytes])).samples).toHaveLength(seconds.length);
      best = Math.min(best, performance.now() - started);
    }
    expect(best).toBeLessThan(1000);
  });
});
