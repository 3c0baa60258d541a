import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { gzipSync, zipSync } from 'fflate';
import { gzipSync as quickGzip } from 'node:zlib';
import { usualLimits, type ReadLimits } from '../limits.js';
import { readRide } from './read-ride.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const read = (text: string, limits?: ReadLimits) => readRide([bytes(text)], limits);
const small = (limits: Partial<ReadLimits>): ReadLimits => ({ ...usualLimits, ...limits });
const table = 'seconds,power_w\n0,200\n1,210\n2,\n3,0\n';
const gpx = (points: string): string => `<gpx><trk><trkseg>${points}</trkseg></trk></gpx>`;
const point = (second: number, inside = ''): string =>
  `<trkpt lat="1" lon="2"><time>2025-01-01T00:00:${String(second).padStart(2, '0')}Z</time>${inside}</trkpt>`;

describe('a table', () => {
  it('keeps missing and zero apart', async () => {
    const ride = await read(table);
    expect(ride.format).toBe('csv');
    expect(ride.startedAt).toBeNull();
    expect(ride.samples.map(({ powerW }) => powerW)).toEqual([200, 210, null, 0]);
  });

  it.each([
    ['semicolons and decimal commas', 'seconds;Power (W);Speed [km/h]\n0;200,5;36,0\n', 200.5, 10],
    ['tabs', 'seconds\tpower_w\tspeed_mph\n0\t201\t22.36936\n', 201, 10],
    [
      'quotes, spaces and a byte order mark',
      '\ufeffSeconds, "Power W" ,speed m/s\r\n0, 202 ,10\r\n',
      202,
      10,
    ],
  ])('reads %s', async (_, text, powerW, speedMps) => {
    const [sample] = (await read(text)).samples;
    expect(sample?.powerW).toBe(powerW);
    expect(sample?.speedMps).toBeCloseTo(speedMps, 4);
  });

  it('reads every unit it names into one', async () => {
    const text =
      'seconds,altitude_ft,distance_mi,heart_rate_bpm,latitude_deg,longitude_deg\n0,1000,2,90,-3,4\n';
    expect((await read(text)).samples[0]).toMatchObject({
      altitudeM: 304.8,
      distanceM: 3218.688,
      heartRateBpm: 90,
      latitudeDeg: -3,
      longitudeDeg: 4,
    });
  });

  it('does not guess a unit, and says what it left', async () => {
    const ride = await read('seconds,power_w,speed,mood\n0,200,30,good\n');
    expect(ride.samples[0]?.speedMps).toBeNull();
    expect(ride.notes).toContainEqual({
      code: 'columns-not-read',
      count: 2,
      sentence: 'Not read, as unknown or without a unit: speed, mood.',
    });
  });

  it.each([
    ['ride.bad-value', 'seconds,power_w\n0,200\n1,twelve\n'],
    ['ride.bad-value', 'seconds,power_w\nlate,200\n'],
    ['ride.bad-value', 'time,power_w\n2025-13-45T00:00:00Z,200\n'],
    ['ride.no-time', 'power_w\n200\n'],
    ['ride.unknown-format', 'name,age\nx,3\n'],
    ['ride.damaged', 'seconds,power_w\n0,200,9\n'],
    ['ride.damaged', 'seconds,power_w\n0,"200\n'],
    ['ride.empty', 'seconds,power_w\n'],
    ['ride.empty', ''],
  ])('is refused as %s: %j', async (code, text) => {
    await expect(read(text)).rejects.toMatchObject({ name: 'RideDataError', code });
  });

  it('names the line of a bad cell', async () => {
    await expect(read('seconds,power_w\n0,200\n1,twelve\n')).rejects.toThrow(/Line 3/);
  });
});

describe('what is not XML of a ride', () => {
  it.each([
    ['ride.unsafe-xml', '<!DOCTYPE gpx [<!ENTITY a "aaaaaaaaaa">]><gpx>&a;</gpx>'],
    ['ride.unsafe-xml', '<!DOCTYPE gpx SYSTEM "http://example.org/x.dtd"><gpx></gpx>'],
    ['ride.unsafe-xml', `<gpx>${'<a>'.repeat(40)}`],
    ['ride.damaged', gpx(point(0, '<power>&secret;</power>'))],
    ['ride.damaged', '<gpx><trk></gpx>'],
    ['ride.damaged', '<gpx><trk>'],
    ['ride.unknown-format', '<html></html>'],
  ])('is refused as %s: %j', async (code, text) => {
    await expect(read(text)).rejects.toMatchObject({ name: 'RideDataError', code });
  });

  it('is refused when it is not UTF-8', async () => {
    const broken = [bytes('<gpx><trk>'), Uint8Array.of(0xc3, 0x28), bytes('</trk></gpx>')];
    await expect(readRide(broken)).rejects.toMatchObject({ code: 'ride.damaged' });
  });
});

describe('GPX', () => {
  it('leaves out points without a time, and says so', async () => {
    const ride = await read(gpx(`${point(0)}<trkpt lat="1" lon="2"/>${point(1)}`));
    expect(ride.samples).toHaveLength(2);
    expect(ride.notes).toContainEqual(expect.objectContaining({ code: 'untimed-records', count: 1 }));
  });

  it('does not take what stands beside the points for their values', async () => {
    const ride = await read(
      `<gpx><metadata><power>900</power></metadata><trk><trkseg>${point(0)}</trkseg></trk></gpx>`,
    );
    expect(ride.samples[0]?.powerW).toBeNull();
  });
});

describe('packed', () => {
  it('reads a gzipped ride, and one alone in an archive', async () => {
    expect((await readRide([gzipSync(bytes(table))])).samples).toHaveLength(4);
    const archive = zipSync({ 'readme.txt': bytes('hello'), 'sunday/Ride.CSV': bytes(table) });
    expect((await readRide([archive])).samples).toHaveLength(4);
  });

  it.each([
    ['ride.several-recordings', zipSync({ 'a.csv': bytes(table), 'b.csv': bytes(table) })],
    ['ride.unknown-format', zipSync({ 'a.txt': bytes(table) })],
    ['ride.unknown-format', gzipSync(gzipSync(bytes(table)))],
    ['ride.unknown-format', zipSync({ 'a.csv': zipSync({ 'a.csv': bytes(table) }) })],
    ['ride.damaged', gzipSync(bytes(table)).subarray(0, 20)],
    ['ride.damaged', zipSync({ 'a.csv': bytes(table) }).subarray(0, 50)],
  ])('is refused as %s', async (code, packed) => {
    await expect(readRide([packed])).rejects.toMatchObject({ name: 'RideDataError', code });
  });

  it('is refused with too many files in it', async () => {
    const files = Object.fromEntries(Array.from({ length: 25 }, (_, i) => [`${i}.txt`, bytes('x')]));
    await expect(readRide([zipSync(files)])).rejects.toMatchObject({ code: 'ride.too-many-entries' });
  });

  it('is refused while it unfolds, before a bomb fills the memory', async () => {
    const zeros = new Uint8Array(64 * 1024 ** 2);
    const limits = small({ unpackedBytes: 1024 ** 2 });
    for (const bomb of [quickGzip(zeros), zipSync({ 'a.csv': zeros })]) {
      expect(bomb.length).toBeLessThan(100_000);
      const before = process.memoryUsage().arrayBuffers;
      await expect(readRide([bomb], limits)).rejects.toMatchObject({ code: 'ride.too-large' });
      expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(32 * 1024 ** 2);
    }
  });
});

describe('limits', () => {
  it('stop reading a stream that does not end', async () => {
    let sent = 0;
    async function* endless(): AsyncGenerator<Uint8Array> {
      for (;;) {
        sent += 65_536;
        yield await Promise.resolve(new Uint8Array(65_536).fill(48));
      }
    }
    await expect(readRide(endless(), small({ sentBytes: 1024 ** 2 }))).rejects.toMatchObject({
      name: 'RideDataError',
    });
    expect(sent).toBeLessThan(2 * 1024 ** 2);
  });

  it('hold for the bytes sent', async () => {
    const long = gpx(`${point(0)}${' '.repeat(2 * 1024 ** 2)}`);
    const pieces = [bytes(long.slice(0, 5000)), bytes(long.slice(5000))];
    await expect(readRide(pieces, small({ sentBytes: 1024 ** 2 }))).rejects.toMatchObject({
      code: 'ride.too-large',
    });
  });

  it('hold for rows, points and messages', async () => {
    const few = small({ entries: 2 });
    await expect(read(table, few)).rejects.toMatchObject({ code: 'ride.too-many-entries' });
    const points = gpx(point(0) + point(1) + point(2));
    await expect(read(points, few)).rejects.toMatchObject({ code: 'ride.too-many-entries' });
    // Messages of one byte each, all empty.
    const data = [0x40, 0, 0, 20, 0, 0, ...new Array<number>(200).fill(0)];
    const fit = Uint8Array.from([
      12,
      0x20,
      0,
      0,
      data.length,
      0,
      0,
      0,
      0x2e,
      0x46,
      0x49,
      0x54,
      ...data,
      0,
      0,
    ]);
    await expect(readRide([fit], small({ entries: 100 }))).rejects.toMatchObject({
      code: 'ride.too-many-entries',
    });
  });

  it('hold for the span: a clock set years forward on the way does not make a grid of years', async () => {
    const text = 'time,power_w\n2020-01-01T00:00:00Z,200\n2025-01-01T00:00:00Z,200\n';
    await expect(read(text)).rejects.toMatchObject({ code: 'ride.too-long' });
  });
});

describe('any bytes', () => {
  it('are a ride or refused', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.oneof(
          fc.uint8Array({ maxLength: 200 }),
          fc.string({ maxLength: 200 }).map(bytes),
          fc.uint8Array({ maxLength: 100 }).map((tail) => Uint8Array.of(0x1f, 0x8b, 8, ...tail)),
          fc.uint8Array({ maxLength: 100 }).map((tail) => Uint8Array.of(0x50, 0x4b, 3, 4, ...tail)),
          fc
            .uint8Array({ maxLength: 100 })
            .map((tail) =>
              Uint8Array.of(12, 0x20, 0, 0, tail.length, 0, 0, 0, 0x2e, 0x46, 0x49, 0x54, ...tail, 0, 0),
            ),
        ),
        async (any) => {
          const outcome = await readRide([any]).catch((error: unknown) => error);
          expect(outcome).toMatchObject(outcome instanceof Error ? { name: 'RideDataError' } : { gaps: [] });
        },
      ),
      { numRuns: 300 },
    );
  });

  it('give the same ride however they are cut into pieces', async () => {
    const whole = bytes(
      gpx(Array.from({ length: 20 }, (_, i) => point(i, `<power>${i}</power><ele>é</ele>`)).join('')),
    );
    const expected = await readRide([whole]);
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 50 }), async (size) => {
        const pieces = Array.from({ length: Math.ceil(whole.length / size) }, (_, i) =>
          whole.subarray(i * size, (i + 1) * size),
        );
        expect(await readRide(pieces)).toEqual(expected);
      }),
    );
  });
});
