import { describe, expect, it } from '@jest/globals';
import { readRide } from '@studio/ride-data';
import { bytesOf, csvFile, fitFile, gpxFile, tcxFile, type WrittenSecond } from './writers.js';

// How fast is measured in bench/ride-data.
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
  ] as const)('is read whole as %s', async (_, bytes) => {
    expect((await readRide([bytes])).samples).toHaveLength(seconds.length);
  });
});
