import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { usualLimits } from '../limits.js';
import { nothingRecorded, type RawSample } from '../read/raw-recording.js';
import type { RideRecording } from '../ride-recording.js';
import { toRecording } from '../series/to-recording.js';
import { best20Minutes } from './best-20-minutes.js';
import { compareOnCourse } from './compare-on-course.js';
import { courseOf, passesOf } from './course.js';
import { gapPolicies, type GapPolicy } from './gap-policy.js';
import { meanMaximalPower } from './mean-maximal-power.js';
import { bearingDeg, metresBetween } from './place.js';
import { sprint } from './sprint.js';
import { steadySpeed } from './steady-speed.js';

type Written = Partial<RawSample> & { readonly second: number };

function rideOf(
  written: readonly Written[],
  stops: readonly (readonly [number, number])[] = [],
): RideRecording {
  return toRecording(
    {
      format: 'csv',
      samples: written.map(({ second, ...channels }) => ({
        ...nothingRecorded,
        ...channels,
        atMs: second * 1000,
      })),
      clockIsSet: true,
      utcOffsetMinutes: null,
      stops: stops.map(([from, to]) => ({ fromMs: from * 1000, toMs: to * 1000 })),
      device: null,
      notes: [],
    },
    usualLimits,
  );
}
const powers = (values: readonly (number | null)[]): Written[] =>
  values.map((powerW, second) => ({ second, powerW }));

describe('meanMaximalPower', () => {
  const policies: readonly GapPolicy[] = Object.values(gapPolicies);

  it('is the best of all windows written out, by every policy', () => {
    const second = fc.record({
      step: fc.integer({ min: 1, max: 4 }),
      powerW: fc.option(fc.integer({ min: 0, max: 900 })),
    });
    fc.assert(
      fc.property(
        fc.array(second, { minLength: 2, maxLength: 40 }),
        fc.integer({ min: 1, max: 12 }),
        fc.constantFrom(...policies),
        (steps, durationS, policy) => {
          let now = -(steps[0]?.step ?? 0);
          const written = steps.map(({ step, powerW }) => ({ second: (now += step), powerW }));
          const ride = rideOf(written);
          expect(meanMaximalPower(ride, durationS, policy)?.meanW ?? null).toEqual(
            closeTo(slowly(ride, durationS, policy)),
          );
        },
      ),
    );
  });

  const closeTo = (value: number | null): unknown => (value === null ? null : expect.closeTo(value, 9));

  /** The definition, second by second. */
  function slowly(ride: RideRecording, durationS: number, policy: GapPolicy): number | null {
    if (!ride.hasPower) return null;
    const known = new Map(ride.samples.map(({ second, powerW }) => [second, powerW]));
    const valueAt = (second: number): number | 'left out' | 'break' => {
      const here = known.get(second);
      const powerless = policy.powerlessSeconds === 'are zero' ? 0 : 'left out';
      if (here !== undefined) return here ?? powerless;
      const gap = ride.gaps.find(
        ({ afterSecond, untilSecond }) => afterSecond < second && second < untilSecond,
      );
      if (gap === undefined) throw new Error('every unrecorded second lies in a gap');
      if (gap.untilSecond - gap.afterSecond > policy.bridgeStepsUpToS) {
        return policy.unrecordedSeconds === 'are zero' ? 0 : 'break';
      }
      const from = known.get(gap.afterSecond) ?? null;
      const to = known.get(gap.untilSecond) ?? null;
      if (from === null || to === null) return powerless;
      return from + ((to - from) * (second - gap.afterSecond)) / (gap.untilSecond - gap.afterSecond);
    };
    let best: number | null = null;
    for (let start = 0; start + durationS <= ride.durationS; start += 1) {
      const values = Array.from({ length: durationS }, (_, i) => valueAt(start + i));
      const counted = values.filter((value) => typeof value === 'number');
      if (values.includes('break') || counted.length === 0) continue;
      if (counted.length < policy.leastCounted * durationS) continue;
      best = Math.max(best ?? 0, counted.reduce((sum, value) => sum + value, 0) / counted.length);
    }
    return best;
  }

  it('bridges a wide step, but never a stop of the device', () => {
    const written = [...powers([100, 100]), { second: 5, powerW: 200 }, { second: 6, powerW: 200 }];
    expect(meanMaximalPower(rideOf(written), 4, gapPolicies.uninterrupted)?.meanW).toBeCloseTo(
      (150 + 175 + 200 + 200) / 4,
      9,
    );
    expect(meanMaximalPower(rideOf(written, [[1, 5]]), 4, gapPolicies.uninterrupted)).toBeNull();
  });

  it.each([0, 1.5, NaN])('refuses %d seconds', (durationS) => {
    expect(() => meanMaximalPower(rideOf(powers([1])), durationS, gapPolicies.uninterrupted)).toThrow(
      RangeError,
    );
  });

  it('is null without a power meter', () => {
    expect(meanMaximalPower(rideOf(powers([0, 0])), 1, gapPolicies.unmeasuredIsZero)).toBeNull();
  });
});

describe('best20Minutes', () => {
  it('warns when the meter may have lost contact within the window', () => {
    const ride = rideOf(
      Array.from({ length: 1300 }, (_, second) => ({
        second,
        cadenceRpm: 90,
        powerW: second >= 700 && second < 710 ? 0 : 260,
      })),
    );
    const found = best20Minutes(ride, gapPolicies.uninterrupted);
    expect(found.dropoutS).toBe(10);
    expect(found.sentence).toBe(
      'Best 20 minutes: 258 W from 0:00:00 on; power known for 100 % of them; 10 s look like lost contact.',
    );
  });
});

describe('sprint', () => {
  const whole = (ride: RideRecording) => ({ fromSecond: 0, toSecond: ride.durationS });

  it('has no onset when its beginning was not recorded', () => {
    const ride = rideOf(powers([700, 900, 1000, 800, 700, 200]));
    expect(sprint(ride, whole(ride), 0.5)).toMatchObject({
      peak1sW: 1000,
      onsetSecond: null,
      timeToPeakS: null,
      workFirst5sJ: null,
    });
  });

  it('does not bridge a missing second on the way up', () => {
    const ride = rideOf(powers([200, 300, null, 900, 1000, 950, 900, 800]));
    expect(sprint(ride, whole(ride), 0.5)).toMatchObject({ onsetSecond: null, peak5sW: 910 });
  });

  it('looks only where it is told to', () => {
    const ride = rideOf(powers([100, 900, 100, 100, 600, 650, 620, 610, 600, 100]));
    const found = sprint(ride, { fromSecond: 3, toSecond: 10 }, 0.5);
    expect(found).toMatchObject({ peak1sW: 650, peakSecond: 5, onsetSecond: 4, timeToPeakS: 1 });
  });

  it('says so where there is no power, and refuses an impossible rule', () => {
    const ride = rideOf(powers([null, 0]));
    expect(sprint(ride, whole(ride), 0.5)).toMatchObject({ peak1sW: null, timeToPeakS: null });
    expect(() => sprint(ride, whole(ride), 1)).toThrow(RangeError);
  });
});

describe('steadySpeed', () => {
  const steadyFrom = (from: number, powerW: number, speedMps: number): Written[] => {
    let distanceM = 0;
    return Array.from({ length: 1000 }, (_, second) => {
      const steady = second >= from && second < from + 400;
      distanceM += steady ? speedMps : 5;
      return { second, powerW: steady ? powerW : second % 60 < 30 ? 0 : 400, distanceM };
    });
  };

  it('finds the steady stretch, its power and its speed', () => {
    const found = steadySpeed(rideOf(steadyFrom(300, 230, 10)), 300, 0.05);
    expect(found.startSecond).toBeGreaterThanOrEqual(300);
    expect(found.startSecond).toBeLessThanOrEqual(400);
    expect(found.meanPowerW).toBeCloseTo(230, 6);
    expect(found.meanSpeedMps).toBeCloseTo(10, 6);
    expect(found.sentence).toBe('At 230 W, steady within 0 %, the mean speed was 36.0 km/h.');
  });

  it('says so when no stretch is steady, or its way is unknown', () => {
    const restless = steadyFrom(5000, 230, 10);
    expect(steadySpeed(rideOf(restless), 300, 0.05)).toMatchObject({ startSecond: null, meanSpeedMps: null });
    const placeless = steadyFrom(300, 230, 10).map(({ second, powerW }) => ({
      second,
      powerW: powerW ?? null,
    }));
    expect(steadySpeed(rideOf(placeless), 300, 0.05).sentence).toBe(
      'The way ridden at a steady load is not known.',
    );
  });

  it('refuses stretches too short to smooth', () => {
    expect(() => steadySpeed(rideOf(powers([200])), 30, 0.05)).toThrow(RangeError);
  });
});

describe('places', () => {
  it('are a nautical mile apart at a minute of latitude, within 2 m', () => {
    const from = { latitudeDeg: 47, longitudeDeg: 8 };
    expect(metresBetween(from, { latitudeDeg: 47 + 1 / 60, longitudeDeg: 8 })).toBeCloseTo(1853, 0);
    expect(bearingDeg(from, { latitudeDeg: 47.01, longitudeDeg: 8 })).toBeCloseTo(0, 9);
    expect(bearingDeg(from, { latitudeDeg: 47, longitudeDeg: 8.01 })).toBeCloseTo(90, 1);
  });

  it('are near each other across the date line', () => {
    const west = { latitudeDeg: 0, longitudeDeg: 179.9995 };
    const east = { latitudeDeg: 0, longitudeDeg: -179.9995 };
    expect(metresBetween(west, east)).toBeCloseTo(111.2, 0);
    expect(bearingDeg(west, east)).toBeCloseTo(90, 6);
  });
});

describe('a course', () => {
  /** Eastward at 10 m/s from metre to metre, with a noise of some metres as receivers have. */
  const track = (metres: readonly number[], northM = 0): RideRecording =>
    rideOf(
      metres.map((eastM, second) => ({
        second,
        latitudeDeg: 45 + (northM + 3 * Math.sin(second)) / 111_195,
        longitudeDeg: 7 + (eastM + 3 * Math.cos(1.3 * second)) / 78_626,
      })),
    );
  const from = (start: number, end: number): number[] =>
    Array.from({ length: Math.abs(end - start) / 10 }, (_, i) => start + Math.sign(end - start) * 10 * i);
  const course = courseOf(track(from(0, 2000)), { fromSecond: 20, toSecond: 180 });

  it('is found each time it is ridden in its direction, and timed', () => {
    if (course === null) throw new Error('a course was expected');
    const thereBackThere = track([...from(0, 2000), ...from(2000, 0), ...from(0, 2000)]);
    const passes = passesOf(thereBackThere, course);
    expect(passes).toHaveLength(2);
    for (const { durationS, meanPowerW, riseM } of passes) {
      expect(Math.abs(durationS - 159)).toBeLessThanOrEqual(2);
      expect(meanPowerW).toBeNull();
      expect(riseM).toBeNull();
    }
  });

  it.each([
    ['a parallel road', track(from(0, 2000), 60)],
    ['the first half only', track(from(0, 1000))],
    ['a ride without places', rideOf(powers([200, 200]))],
  ])('is not found on %s', (_, ride) => {
    if (course === null) throw new Error('a course was expected');
    expect(passesOf(ride, course)).toEqual([]);
  });

  it('does not follow a rider who waits at its start for each second of the wait', () => {
    if (course === null) throw new Error('a course was expected');
    const waiting = track([...new Array<number>(50_000).fill(200), ...from(200, 600)]);
    // Followed for each, it would not end within the limit of a test.
    expect(passesOf(waiting, course)).toEqual([]);
  });

  it('needs places and some length', () => {
    expect(courseOf(rideOf(powers([200, 200])), { fromSecond: 0, toSecond: 2 })).toBeNull();
    expect(courseOf(track(from(0, 200)), { fromSecond: 0, toSecond: 20 })).toBeNull();
  });

  it('is compared between sides that have runs', () => {
    expect(() => compareOnCourse([], [])).toThrow(RangeError);
  });
});
