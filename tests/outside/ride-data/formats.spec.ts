import { describe, expect, it } from '@jest/globals';
import { readRide, type RideSample } from '@studio/ride-data';
import FitParser from 'fit-file-parser';
import { bytesOf, csvFile, fitFile, gpxFile, startMs, tcxFile, type WrittenSecond } from './writers.js';

const seconds: readonly WrittenSecond[] = Array.from({ length: 40 }, (_, second) => ({
  second,
  powerW: second % 7 === 3 ? null : 150 + second,
  cadenceRpm: 80 + (second % 5),
  heartRateBpm: 120 + second,
  speedMps: 8 + second / 8,
  altitudeM: 400 + second / 5,
}));

const readText = (text: string) => readRide([bytesOf(text)]);

describe('one ride, four formats', () => {
  it.each([
    ['fit', fitFile(seconds)],
    ['tcx', bytesOf(tcxFile(seconds))],
    ['gpx', bytesOf(gpxFile(seconds))],
    ['csv', bytesOf(csvFile(seconds))],
  ] as const)('%s gives the same series; a missing power is missing, not zero', async (format, bytes) => {
    const ride = await readRide([bytes]);
    expect(ride.format).toBe(format);
    expect(ride.startedAt?.getTime()).toBe(startMs);
    expect(ride.samples).toHaveLength(seconds.length);
    ride.samples.forEach((sample: RideSample, i) => {
      const written = seconds[i];
      expect(sample.second).toBe(written?.second);
      expect(sample.powerW).toBe(written?.powerW);
      expect(sample.cadenceRpm).toBe(written?.cadenceRpm);
      expect(sample.heartRateBpm).toBe(written?.heartRateBpm);
      expect(sample.speedMps).toBeCloseTo(written?.speedMps ?? NaN, 9);
      // FIT keeps altitude in fifths of a metre.
      expect(sample.altitudeM).toBeCloseTo(written?.altitudeM ?? NaN, 9);
    });
  });

  it('the FIT written for these tests is FIT to the second decoder too', async () => {
    const parser = new FitParser({ force: false, speedUnit: 'm/s', lengthUnit: 'm', mode: 'list' });
    const { records } = (await parser.parseAsync(Buffer.from(fitFile(seconds)))) as {
      records: { power?: number; timestamp: string | Date }[];
    };
    expect(records.map(({ power }) => power ?? null)).toEqual(seconds.map(({ powerW }) => powerW));
    expect(new Date(records[0]?.timestamp ?? NaN).getTime()).toBe(startMs);
  });
});

describe('FIT, by its profile (docs in the official SDK, 21.217.0)', () => {
  it('counts from 1989-12-31, Unix second 631065600; 0xFFFF of power and 0xFF of cadence are no reading', async () => {
    // A file by hand: header, definition of message 20 (timestamp u32, power u16, cadence u8), two records.
    const stamp = 1_000_000_000;
    const record = (offsetS: number, power: number, cadence: number): number[] => {
      const at = stamp + offsetS;
      return [0, at & 255, (at >> 8) & 255, (at >> 16) & 255, at >>> 24, power & 255, power >> 8, cadence];
    };
    const data = [
      ...[0x40, 0, 0, 20, 0, 3, 253, 4, 0x86, 7, 2, 0x84, 4, 1, 0x02],
      ...record(0, 250, 90),
      ...record(1, 0xffff, 0xff),
      ...record(2, 0, 0),
    ];
    const ride = await readRide([fitOf(data)]);
    expect(ride.startedAt?.getTime()).toBe((stamp + 631_065_600) * 1000);
    expect(ride.samples.map(({ powerW }) => powerW)).toEqual([250, null, 0]);
    expect(ride.samples.map(({ cadenceRpm }) => cadenceRpm)).toEqual([90, null, 0]);
    expect(ride.notes).toEqual([]);
  });

  it('stamps below 0x10000000 count from switching on: the clock was never set', async () => {
    const data = [
      0x40, 0, 0, 20, 0, 2, 253, 4, 0x86, 7, 2, 0x84, 0, 9, 0, 0, 0, 100, 0, 0, 10, 0, 0, 0, 110, 0,
    ];
    const ride = await readRide([fitOf(data)]);
    expect(ride.startedAt).toBeNull();
    expect(ride.samples.map(({ second }) => second)).toEqual([0, 1]);
    expect(ride.notes).toContainEqual(expect.objectContaining({ code: 'clock-not-set' }));
  });

  it('compressed time stamps, which the official decoder does not read, are refused and not misread', async () => {
    const data = [0x40, 0, 0, 20, 0, 1, 7, 2, 0x84, 0x80, 100, 0];
    await expect(readRide([fitOf(data)])).rejects.toMatchObject({ code: 'ride.damaged' });
  });
});

describe('TCX with the activity extension v2', () => {
  // Shape of the element: documentation of the gem tcxread (rubydoc.info); prefixes are free in XML namespaces.
  const point = (time: string, extension: string): string =>
    `<Trackpoint><Time>${time}</Time><Extensions>${extension}</Extensions></Trackpoint>`;
  const file = (points: string): string =>
    `<TrainingCenterDatabase><Activities><Activity><Lap><Track>${points}</Track></Lap></Activity></Activities></TrainingCenterDatabase>`;
  const v2 = 'http://www.garmin.com/xmlschemas/ActivityExtension/v2';

  it.each([
    ['a default namespace', `<TPX xmlns="${v2}"><Watts>231</Watts></TPX>`],
    ['the usual prefix', `<ns3:TPX xmlns:ns3="${v2}"><ns3:Watts>231</ns3:Watts></ns3:TPX>`],
    [
      'any other prefix',
      `<q:TPX xmlns:q="${v2}"><q:RunCadence>9</q:RunCadence><q:Watts>231</q:Watts></q:TPX>`,
    ],
  ])('reads Watts under %s', async (_, extension) => {
    const ride = await readText(file(point('2025-05-03T07:30:00Z', extension)));
    expect(ride.samples[0]).toMatchObject({ powerW: 231, cadenceRpm: null });
  });

  it('takes a time without a zone for UTC, whatever zone this computer is in, and says so', async () => {
    const ride = await readText(file(point('2025-05-03T07:30:00', '')));
    expect(ride.startedAt?.toISOString()).toBe('2025-05-03T07:30:00.000Z');
    expect(ride.notes.map(({ code }) => code)).toContain('zone-assumed');
  });
});

describe('GPX 1.1', () => {
  const file = (points: string): string => `<gpx version="1.1"><trk><trkseg>${points}</trkseg></trk></gpx>`;
  const point = (time: string, extensions: string): string =>
    `<trkpt lat="47.1" lon="8.2"><time>${time}</time><extensions>${extensions}</extensions></trkpt>`;

  // Power and cadence elements: extensions page of the crate gpx (docs.rs) and a public sample; the bare power
  // element is from memory.
  it.each([
    [
      'power extension',
      '<gpxpx:PowerExtension><gpxpx:PowerInWatts>199</gpxpx:PowerInWatts></gpxpx:PowerExtension>',
    ],
    ['a bare power element', '<power>199</power>'],
  ])('%s', async (_, extension) => {
    const ride = await readText(file(point('2025-05-03T09:30:00+02:00', extension)));
    expect(ride.samples[0]).toMatchObject({ powerW: 199, latitudeDeg: 47.1, longitudeDeg: 8.2 });
    expect(ride.startedAt?.toISOString()).toBe('2025-05-03T07:30:00.000Z');
    expect(ride.utcOffsetMinutes).toBe(120);
  });

  it.each([
    [
      'track point extension',
      '<gpxtpx:TrackPointExtension><gpxtpx:cad>88</gpxtpx:cad></gpxtpx:TrackPointExtension>',
    ],
    ['data extension', '<gpxdata:cadence>88</gpxdata:cadence>'],
  ])('cadence by the %s', async (_, extension) => {
    const ride = await readText(file(point('2025-05-03T07:30:00Z', extension)));
    expect(ride.samples[0]?.cadenceRpm).toBe(88);
  });

  it('a new segment is a stop of the device', async () => {
    const first = point('2025-05-03T07:30:00Z', '<power>100</power>');
    const second = point('2025-05-03T07:40:00Z', '<power>100</power>');
    const ride = await readText(file(`${first}</trkseg><trkseg>${second}`));
    expect(ride.gaps).toEqual([{ afterSecond: 0, untilSecond: 600, paused: true }]);
  });

  it('a route without times is no recording', async () => {
    const planned = '<gpx><rte><rtept lat="1" lon="2"/></rte></gpx>';
    await expect(readText(planned)).rejects.toMatchObject({ code: 'ride.empty' });
    const untimed = file('<trkpt lat="1" lon="2"/>');
    await expect(readText(untimed)).rejects.toMatchObject({ code: 'ride.no-time' });
  });
});

/** Header and checksum around the data, by the FIT protocol's own CRC. */
function fitOf(data: readonly number[]): Uint8Array {
  const header = [12, 0x20, 0, 0, data.length & 255, data.length >> 8, 0, 0, 0x2e, 0x46, 0x49, 0x54];
  const bytes = [...header, ...data];
  const table = [
    0x0000, 0xcc01, 0xd801, 0x1400, 0xf001, 0x3c00, 0x2800, 0xe401, 0xa001, 0x6c00, 0x7800, 0xb401, 0x5000,
    0x9c01, 0x8801, 0x4400,
  ];
  let crc = 0;
  for (const byte of bytes) {
    for (const nibble of [byte & 15, byte >> 4]) {
      crc = (crc >> 4) ^ (table[crc & 15] ?? 0) ^ (table[nibble] ?? 0);
    }
  }
  return Uint8Array.from([...bytes, crc & 255, crc >> 8]);
}
