import { describe, expect, it } from '@jest/globals';
import { best20Minutes, gapPolicies, meanMaximalPower, readRide } from '@studio/ride-data';
import FitParser from 'fit-file-parser';
import { createReadStream, existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

// Real recordings from the test files of the public repository dtcooper/python-fitparse (MIT licence). They are data
// beside this repository and not part of it.
const folder = path.resolve(import.meta.dirname, '../../../../shared/data/rides');
const found = existsSync(folder);
const title = found ? 'real recordings' : `SKIPPED, no recordings in ${folder}`;
const fileOf = (name: string): string => path.join(folder, `${name}.fit`);
const read = (name: string) => readRide(createReadStream(fileOf(name)));

interface OracleRecord {
  readonly timestamp: Date | string;
  readonly power?: number;
  readonly cadence?: number;
  readonly heart_rate?: number;
  readonly altitude?: number;
  readonly speed?: number;
  readonly distance?: number;
}

/** Records by the second decoder. */
async function oracleRecords(name: string): Promise<readonly OracleRecord[]> {
  const parser = new FitParser({ force: true, speedUnit: 'm/s', lengthUnit: 'm', mode: 'list' });
  const { records } = (await parser.parseAsync(readFileSync(fileOf(name)))) as { records: OracleRecord[] };
  return records;
}

(found ? describe : describe.skip)(title, () => {
  it.each([
    ['outdoor-power', 4700, 4700, 4700],
    ['indoor-trainer-power', 2263, 2222, 2264],
  ])(
    '%s: %d records, %d with power, over %d s (two decoders agree)',
    async (name, records, powered, spanS) => {
      const ride = await read(name);
      expect(ride.samples).toHaveLength(records);
      expect(ride.samples.filter(({ powerW }) => powerW !== null)).toHaveLength(powered);
      expect(ride.durationS).toBe(spanS);
      expect(ride.hasPower).toBe(true);
    },
  );

  it.each(['outdoor-power', 'indoor-trainer-power'])(
    '%s: every value as the second decoder reads it',
    async (name) => {
      const ride = await read(name);
      const oracle = await oracleRecords(name);
      expect(ride.samples).toHaveLength(oracle.length);
      const startMs = ride.startedAt?.getTime() ?? NaN;
      const close = (found: number | null, read: number | undefined): boolean =>
        found === null || read === undefined
          ? found === null && read === undefined
          : Math.abs(found - read) < 5e-7;
      const unlike = ride.samples.filter((sample, i) => {
        const record = oracle[i];
        return !(
          startMs + sample.second * 1000 === new Date(record?.timestamp ?? NaN).getTime() &&
          sample.powerW === (record?.power ?? null) &&
          sample.cadenceRpm === (record?.cadence ?? null) &&
          sample.heartRateBpm === (record?.heart_rate ?? null) &&
          close(sample.altitudeM, record?.altitude) &&
          close(sample.speedMps, record?.speed) &&
          close(sample.distanceM, record?.distance)
        );
      });
      expect(unlike).toEqual([]);
    },
  );

  it.each([
    ['outdoor-power', 1, 619],
    ['outdoor-power', 5, 591.2],
    ['outdoor-power', 10, 570.9],
    ['outdoor-power', 15, 548.067],
    ['outdoor-power', 30, 445.133],
    ['outdoor-power', 60, 416.567],
    ['outdoor-power', 300, 340.557],
    ['outdoor-power', 1200, 312.215],
    ['indoor-trainer-power', 1, 331],
    ['indoor-trainer-power', 5, 297.2],
    ['indoor-trainer-power', 60, 274.333],
    ['indoor-trainer-power', 1200, 229.472],
  ])(
    '%s: highest mean over %d s is %d W, what was not measured being zero',
    async (name, durationS, meanW) => {
      const best = meanMaximalPower(await read(name), durationS, gapPolicies.unmeasuredIsZero);
      expect(Math.abs((best?.meanW ?? NaN) - meanW)).toBeLessThanOrEqual(0.0005);
    },
  );

  it.each([
    ['outdoor-power', 1896, 276, 619, 275.49],
    ['indoor-trainer-power', 750, 201, 331, 201.42],
  ])(
    '%s: best 20 minutes begin at second %d; the device says %d W and at most %d W, the records %d W',
    async (name, startSecond, deviceMeanW, deviceMaxW, recordMeanW) => {
      const ride = await read(name);
      expect(best20Minutes(ride, gapPolicies.unmeasuredIsZero).best?.startSecond).toBe(startSecond);
      expect(ride.device).toEqual({ meanPowerW: deviceMeanW, maxPowerW: deviceMaxW });
      const powers = ride.samples.map(({ powerW }) => powerW).filter((power) => power !== null);
      const mean = powers.reduce((sum, power) => sum + power, 0) / powers.length;
      expect(Math.abs(mean - recordMeanW)).toBeLessThanOrEqual(0.005);
      expect(Math.max(...powers)).toBe(deviceMaxW);
    },
  );

  it('indoor-trainer-power: one step of 2 s and 41 records without power; the 20 minutes are told with their coverage', async () => {
    const ride = await read('indoor-trainer-power');
    expect(ride.gaps.map(({ afterSecond, untilSecond }) => untilSecond - afterSecond)).toEqual([2]);
    expect(ride.samples.filter(({ powerW }) => powerW === null)).toHaveLength(41);
    const { best } = best20Minutes(ride, gapPolicies.uninterrupted);
    expect(best?.coverage).toBeGreaterThan(0.95);
    expect(best?.meanW).toBeGreaterThanOrEqual(229.472 - 0.0005);
  });

  it('no-power-meter: 14391 records of 0 W, 8 of them twice in a second: no power meter, and stops are told', async () => {
    const ride = await read('no-power-meter');
    const codes = Object.fromEntries(ride.notes.map(({ code, count }) => [code, count]));
    expect(codes).toMatchObject({ 'no-power-meter': null, 'duplicate-stamps': 8, 'checksum-wrong': null });
    expect(ride.samples).toHaveLength(14391 - 8);
    expect(ride.hasPower).toBe(false);
    expect(ride.device).toBeNull();
    expect(ride.gaps).not.toHaveLength(0);
    expect(ride.gaps.every(({ paused }) => paused)).toBe(true);
    expect(best20Minutes(ride, gapPolicies.stopsAreRest)).toMatchObject({
      best: null,
      reason: 'no power meter',
    });
  });

  it('cut-short and corrupt-header are refused, by name', async () => {
    await expect(read('cut-short')).rejects.toMatchObject({ name: 'RideDataError', code: 'ride.cut-short' });
    await expect(read('corrupt-header')).rejects.toMatchObject({
      name: 'RideDataError',
      code: 'ride.damaged',
    });
  });

  it('any part cut off or byte turned in a real file is read or refused, never a crash', async () => {
    const bytes = readFileSync(fileOf('indoor-trainer-power'));
    for (let i = 0; i < 60; i += 1) {
      const cut = bytes.subarray(0, Math.floor((bytes.length * i) / 60));
      await expect(readRide([cut])).rejects.toMatchObject({ name: 'RideDataError' });
      const turned = Uint8Array.from(bytes);
      const at = (i * 7919) % bytes.length;
      turned[at] = (turned[at] ?? 0) ^ 0xff;
      const outcome = await readRide([turned]).catch((error: unknown) => error);
      expect(outcome).toMatchObject(
        outcome instanceof Error ? { name: 'RideDataError' } : { format: 'fit', notes: expect.any(Array) },
      );
    }
  });
});
