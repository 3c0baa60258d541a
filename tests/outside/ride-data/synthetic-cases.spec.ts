import { describe, expect, it } from '@jest/globals';
import {
  best20Minutes,
  compareTimeToPeak,
  gapPolicies,
  meanMaximalPower,
  readRide,
  sprint,
  timeToPeakChangeErrorS,
  timeToPeakErrorS,
  usualOnsetShareOfPeak,
} from '@studio/ride-data';
import { bytesOf, csvFile, fitFile, type WrittenSecond } from './writers.js';

// Cases whose answers follow from the definition alone: mean power of a window is work over clock time.

const riding = (from: number, to: number, powerW: number | null, stepS = 1): WrittenSecond[] =>
  Array.from({ length: Math.ceil((to - from) / stepS) }, (_, i) => ({ second: from + i * stepS, powerW }));
const rideOf = (seconds: readonly WrittenSecond[]) => readRide([bytesOf(csvFile(seconds))]);

describe('20 minutes', () => {
  it('300 W, ten minutes’ stop, 300 W: 150 W of clock time; never the 300 W that counting samples gives', async () => {
    const seconds = [...riding(0, 600, 300), ...riding(1200, 1800, 300)];
    const ride = await readRide([fitFile(seconds, [[599, 1200]])]);
    expect(ride.gaps).toEqual([{ afterSecond: 599, untilSecond: 1200, paused: true }]);
    const rest = best20Minutes(ride, gapPolicies.stopsAreRest);
    expect(rest.best?.meanW).toBeCloseTo(150, 9);
    expect(rest.best?.coverage).toBeCloseTo(0.5, 9);
    expect(best20Minutes(ride, gapPolicies.uninterrupted)).toMatchObject({
      best: null,
      reason: 'no 20 minutes without a gap',
    });
  });

  it('1199 seconds hold none, 1200 do', async () => {
    const short = best20Minutes(await rideOf(riding(0, 1199, 250)), gapPolicies.uninterrupted);
    expect(short).toMatchObject({ best: null, reason: 'shorter than 20 minutes' });
    const enough = best20Minutes(await rideOf(riding(0, 1200, 250)), gapPolicies.uninterrupted);
    expect(enough.best).toMatchObject({ meanW: 250, startSecond: 0, coverage: 1 });
  });

  it('12 of 1200 records without power: 250 W left out, 247.5 W as zero, 99 % known', async () => {
    const ride = await rideOf(
      riding(0, 1200, 250).map((one) => (one.second % 100 === 50 ? { ...one, powerW: null } : one)),
    );
    const leftOut = best20Minutes(ride, gapPolicies.uninterrupted);
    expect(leftOut.best?.meanW).toBeCloseTo(250, 9);
    expect(leftOut.best?.coverage).toBeCloseTo(0.99, 9);
    expect(leftOut.sentence).toBe('Best 20 minutes: 250 W from 0:00:00 on; power known for 99 % of them.');
    expect(best20Minutes(ride, gapPolicies.unmeasuredIsZero).best?.meanW).toBeCloseTo(247.5, 9);
  });

  it('a recording every 3 s is weighed by time: the window is 1200 s, not 1200 records', async () => {
    const ride = await rideOf(riding(0, 1300, 220, 3));
    const { best } = best20Minutes(ride, gapPolicies.uninterrupted);
    expect(best).toMatchObject({ meanW: 220, durationS: 1200, coverage: 1 });
    const inWindow = ride.samples.filter(({ second }) => second < 1200);
    expect(inWindow).toHaveLength(400);
  });
});

describe('mean-maximal power', () => {
  it('of a constant effort is that effort at every length', async () => {
    const ride = await rideOf(riding(0, 2000, 240));
    for (const durationS of [1, 5, 60, 1200, 2000]) {
      expect(meanMaximalPower(ride, durationS, gapPolicies.uninterrupted)?.meanW).toBeCloseTo(240, 9);
    }
    expect(meanMaximalPower(ride, 2001, gapPolicies.uninterrupted)).toBeNull();
  });

  it('over one second is the maximum, and never rises with twice the length', async () => {
    const ride = await rideOf(
      riding(0, 1500, 0).map(({ second }) => ({
        second,
        powerW: Math.round(200 + 90 * Math.sin(second / 40) + 60 * Math.sin(second * 1.7)),
      })),
    );
    const maximum = Math.max(...ride.samples.map(({ powerW }) => powerW ?? 0));
    const means = [1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024].map(
      (durationS) => meanMaximalPower(ride, durationS, gapPolicies.uninterrupted)?.meanW ?? NaN,
    );
    expect(means[0]).toBe(maximum);
    // Of two halves of a window one has at least its mean.
    expect(means).toEqual([...means].sort((a, b) => b - a));
  });

  it('two records in one second, 200 and 400 W: one second of their mean, and no second more', async () => {
    const seconds = riding(0, 1200, 300);
    seconds.splice(600, 1, { second: 600, powerW: 200 }, { second: 600, powerW: 400 });
    const ride = await rideOf(seconds);
    expect(ride.durationS).toBe(1200);
    expect(ride.samples).toHaveLength(1200);
    expect(ride.samples[600]?.powerW).toBe(300);
    expect(ride.notes).toContainEqual(expect.objectContaining({ code: 'duplicate-stamps', count: 1 }));
    expect(best20Minutes(ride, gapPolicies.uninterrupted).best?.meanW).toBeCloseTo(300, 9);
  });
});

describe('a sprint at one value a second', () => {
  const whole = { fromSecond: 0, toSecond: 100 };

  it('floor of the time to peak from stamps uniform over ±0.5 s: SD 0.41 s, of a change 0.58 s, so ±1.1 s', () => {
    expect(timeToPeakErrorS / 1.96).toBeCloseTo(0.41, 2);
    expect(timeToPeakChangeErrorS / 1.96).toBeCloseTo(0.58, 2);
    expect(timeToPeakChangeErrorS).toBeCloseTo(1.1, 1);
  });

  it('says neither sooner nor later for a second', () => {
    expect(compareTimeToPeak(4, 5)).toBe('cannot tell');
    expect(compareTimeToPeak(5, 4)).toBe('cannot tell');
    expect(compareTimeToPeak(4, 6)).toBe('later');
    expect(compareTimeToPeak(6, 4)).toBe('sooner');
    expect(compareTimeToPeak(null, 4)).toBe('cannot tell');
  });

  it('peak over 1 s and 5 s, onset, time to peak and work of the first five seconds', async () => {
    const rise = [200, 200, 450, 700, 900, 1000, 980, 940, 800, 300, 200];
    const ride = await rideOf(rise.map((powerW, second) => ({ second, powerW })));
    expect(sprint(ride, whole, usualOnsetShareOfPeak)).toMatchObject({
      peak1sW: 1000,
      peak5sW: (900 + 1000 + 980 + 940 + 800) / 5,
      onsetSecond: 3,
      timeToPeakS: 2,
      workFirst5sJ: 700 + 900 + 1000 + 980 + 940,
    });
    expect(sprint(ride, whole, 0.3)).toMatchObject({ onsetSecond: 2, timeToPeakS: 3 });
  });
});
