import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { usualLimits } from '../limits.js';
import { nothingRecorded, type RawRecording, type RawSample } from '../read/raw-recording.js';
import type { RideNoteCode, RideRecording } from '../ride-recording.js';
import { toRecording } from './to-recording.js';

const at = (second: number, channels: Partial<RawSample> = {}): RawSample => ({
  ...nothingRecorded,
  powerW: 200,
  ...channels,
  atMs: 1_000_000_000_000 + second * 1000,
});
const recordingOf = (samples: readonly RawSample[], more: Partial<RawRecording> = {}): RideRecording =>
  toRecording(
    {
      format: 'fit',
      samples,
      clockIsSet: true,
      utcOffsetMinutes: null,
      stops: [],
      device: null,
      notes: [],
      ...more,
    },
    usualLimits,
  );
const counts = ({ notes }: RideRecording): Partial<Record<RideNoteCode, number | null>> =>
  Object.fromEntries(notes.map(({ code, count }) => [code, count]));
const seconds = (from: number, to: number): RawSample[] =>
  Array.from({ length: to - from }, (_, i) => at(from + i));

describe('the clock', () => {
  it('makes one of all records within a second: means of rates, the last of places', () => {
    const ride = recordingOf([
      at(0.1, { powerW: 100, distanceM: 5, heartRateBpm: null }),
      at(0.4, { powerW: null, distanceM: 7, heartRateBpm: 100 }),
      at(0.9, { powerW: 300, distanceM: null, heartRateBpm: 110 }),
      at(1),
    ]);
    expect(ride.samples).toHaveLength(2);
    expect(ride.samples[0]).toMatchObject({ second: 0, powerW: 200, distanceM: 7, heartRateBpm: 105 });
    expect(counts(ride)).toEqual({ 'duplicate-stamps': 2 });
  });

  it('leaves out what runs backwards, and tells how much', () => {
    const ride = recordingOf([...seconds(0, 30), at(12, { powerW: 999 }), ...seconds(30, 40)]);
    expect(ride.samples).toHaveLength(40);
    expect(ride.samples[12]?.powerW).toBe(200);
    expect(counts(ride)).toEqual({ 'backward-stamps': 1 });
  });

  it('is refused when it was not one clock', () => {
    expect(() => recordingOf([...seconds(0, 20), ...seconds(0, 20)])).toThrow(
      expect.objectContaining({ code: 'ride.clock-unusable' }),
    );
  });

  it('always gives ascending seconds from 0, whatever the stamps', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 1, maxLength: 60 }), (stamps) => {
        let ride: RideRecording;
        try {
          ride = recordingOf(stamps.map((second) => at(second)));
        } catch (error) {
          expect(error).toMatchObject({ code: 'ride.clock-unusable' });
          return;
        }
        const found = ride.samples.map(({ second }) => second);
        expect(found[0]).toBe(0);
        expect(found).toEqual([...new Set(found)].sort((a, b) => a - b));
        expect(ride.durationS).toBe((found.at(-1) ?? NaN) + 1);
        const skipped = ride.gaps.reduce((sum, gap) => sum + gap.untilSecond - gap.afterSecond - 1, 0);
        expect(ride.samples.length + skipped).toBe(ride.durationS);
      }),
    );
  });
});

describe('gaps', () => {
  const epochMs = 1_000_000_000_000;
  const stop = (from: number, to: number) => ({ fromMs: epochMs + from * 1000, toMs: epochMs + to * 1000 });

  it('are pauses where the device was stopped, and steps where it was not', () => {
    const samples = [...seconds(0, 10), ...seconds(40, 50), ...seconds(55, 60), ...seconds(90, 95)];
    const ride = recordingOf(samples, { stops: [stop(9, 40), stop(60, 89)] });
    expect(ride.gaps).toEqual([
      { afterSecond: 9, untilSecond: 40, paused: true },
      { afterSecond: 49, untilSecond: 55, paused: false },
      { afterSecond: 59, untilSecond: 90, paused: true },
    ]);
    expect(counts(ride)).toEqual({ 'wide-steps': 1 });
  });

  it('are not made by a stop in which the device went on recording', () => {
    expect(recordingOf(seconds(0, 60), { stops: [stop(10, 20)] }).gaps).toEqual([]);
  });
});

describe('values no ride can have', () => {
  it('are missing, and counted by the record', () => {
    const ride = recordingOf([
      at(0),
      at(1, { powerW: 65_534, speedMps: 400 }),
      at(2, { powerW: -5 }),
      at(3, { latitudeDeg: 180 }),
      at(4, { heartRateBpm: 0 }),
    ]);
    expect(ride.samples.map(({ powerW }) => powerW)).toEqual([200, null, null, 200, 200]);
    expect(ride.samples[1]?.speedMps).toBeNull();
    expect(ride.samples[4]?.heartRateBpm).toBeNull();
    expect(counts(ride)).toEqual({ 'impossible-values': 3 });
  });

  it('spikes are lone seconds: a sprint is not one', () => {
    const powers = [200, 1800, 210, 400, 900, 1300, 1250, 800];
    const ride = recordingOf(powers.map((powerW, second) => at(second, { powerW })));
    expect(ride.samples.map(({ powerW }) => powerW)).toEqual([200, null, 210, 400, 900, 1300, 1250, 800]);
    expect(counts(ride)).toEqual({ 'power-spikes': 1 });
  });

  it('are not called spikes beside a gap, where the neighbour is not known', () => {
    const ride = recordingOf([at(0), at(1, { powerW: 1800 }), at(5)]);
    expect(ride.samples[1]?.powerW).toBe(1800);
  });
});

describe('power that stays away', () => {
  it('tells of 0 W with the pedals turning, and leaves coasting alone', () => {
    const ride = recordingOf([
      ...seconds(0, 10),
      ...Array.from({ length: 6 }, (_, i) => at(10 + i, { powerW: 0, cadenceRpm: 85 })),
      ...Array.from({ length: 6 }, (_, i) => at(16 + i, { powerW: 0, cadenceRpm: 0 })),
      ...Array.from({ length: 3 }, (_, i) => at(22 + i, { powerW: 0, cadenceRpm: 85 })),
      at(25),
    ]);
    expect(counts(ride)).toEqual({ 'power-dropouts': 6 });
    expect(ride.samples[12]?.powerW).toBe(0);
  });

  it.each([
    ['none is recorded', null],
    ['all of it is zero', 0],
  ])('says that there was no meter when %s', (_, powerW) => {
    const ride = recordingOf([0, 1, 2, 3, 4, 5].map((second) => at(second, { powerW, cadenceRpm: 80 })));
    expect(ride.hasPower).toBe(false);
    expect(counts(ride)).toEqual({ 'no-power-meter': null });
  });
});
