import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  airDensity,
  airDensityKgPerM3,
  courseTime,
  dragAreaChangeM2,
  FitMathError,
  loweringGain,
  roadPower,
  steadySpeedMps,
  timeTrialAreaRatio,
  windOnRoad,
  type LoweringInput,
  type RiderOnRoad,
  type Road,
} from '../index.js';

const still = { headwindMps: 0, crosswindMps: 0 };
const level: Road = { gradient: 0, airDensityKgPerM3: 1.2, wind: still };
const rider: RiderOnRoad = { totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 };
const flat40 = [{ ...level, lengthM: 40_000 }];
const lowering: LoweringInput = { rider, dragAreaSdM2: 0.02, loweredMm: 14, course: flat40, powerW: 250 };

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const anyRider = fc.record({
  totalMassKg: number(30, 150),
  dragAreaM2: number(0.15, 1.5),
  rollingCoefficient: number(0, 0.03),
});
const anyRoad = fc.record({
  gradient: number(-0.03, 0.2),
  airDensityKgPerM3: number(0.5, 1.6),
  wind: fc.record({ headwindMps: number(-15, 15), crosswindMps: number(-15, 15) }),
});

describe('steadySpeedMps', () => {
  it('is undone by the power at that speed', () => {
    fc.assert(
      fc.property(anyRider, anyRoad, number(30, 600), (someRider, road, powerW) => {
        const speedMps = steadySpeedMps(someRider, road, powerW);
        expect(roadPower(someRider, road, speedMps).pedalW).toBeCloseTo(powerW, 4);
      }),
    );
  });

  it('rises with power and falls with drag, mass uphill and wind ahead', () => {
    fc.assert(
      fc.property(anyRider, anyRoad, number(30, 600), (someRider, road, powerW) => {
        const speedMps = steadySpeedMps(someRider, road, powerW);
        const uphill = { ...road, gradient: Math.abs(road.gradient) };
        const windier = {
          ...road,
          wind: { ...road.wind, headwindMps: road.wind.headwindMps + 1 },
        };
        expect(steadySpeedMps(someRider, road, powerW + 10)).toBeGreaterThan(speedMps);
        expect(steadySpeedMps(someRider, windier, powerW)).toBeLessThan(speedMps);
        fc.pre(someRider.rollingCoefficient > 1e-4);
        expect(
          steadySpeedMps({ ...someRider, totalMassKg: someRider.totalMassKg + 5 }, uphill, powerW),
        ).toBeLessThan(steadySpeedMps(someRider, uphill, powerW));
      }),
    );
  });

  it('says when no speed up to 60 m/s holds the power', () => {
    const headlong = { ...level, gradient: -0.25, airDensityKgPerM3: 0.3 };
    expect(() => steadySpeedMps({ ...rider, totalMassKg: 250, dragAreaM2: 0.1 }, headlong, 2500)).toThrow(
      expect.objectContaining({ code: 'target.not-reachable', field: 'powerW' }),
    );
  });
});

describe('roadPower', () => {
  it('lets a wind from behind that is faster than the rider push', () => {
    const pushed = roadPower(rider, { ...level, wind: { headwindMps: -15, crosswindMps: 0 } }, 8);
    expect(pushed.airW).toBeLessThan(0);
    expect(pushed.airSpeedMps).toBe(-7);
  });

  it('has no NaN or infinity in any term', () => {
    fc.assert(
      fc.property(anyRider, anyRoad, number(0, 60), (someRider, road, speedMps) => {
        for (const term of Object.values(roadPower(someRider, road, speedMps))) {
          expect(Number.isFinite(term)).toBe(true);
        }
      }),
    );
  });
});

describe('windOnRoad', () => {
  it('is all ahead when it comes from where one goes, all across when from the side', () => {
    expect(windOnRoad(5, 90, 90)).toEqual({ headwindMps: 5, crosswindMps: 0 });
    expect(windOnRoad(5, 180, 90).headwindMps).toBeCloseTo(0, 12);
    expect(windOnRoad(5, 180, 90).crosswindMps).toBeCloseTo(5, 12);
    expect(windOnRoad(5, 270, 90).headwindMps).toBeCloseTo(-5, 12);
  });
});

describe('courseTime', () => {
  it('adds up the stretches and takes longer out and home in a wind than in still air', () => {
    const half = { ...level, lengthM: 10_000 };
    const out = { ...half, wind: windOnRoad(4, 0, 0) };
    const home = { ...half, wind: windOnRoad(4, 0, 180) };
    const windy = courseTime(rider, [out, home], 250);
    expect(windy.durationS).toBeCloseTo(
      windy.stretches.reduce((sum, { durationS }) => sum + durationS, 0),
      9,
    );
    expect(windy.durationS).toBeGreaterThan(courseTime(rider, [half, half], 250).durationS);
    expect(windy.meanSpeedMps).toBeCloseTo(20_000 / windy.durationS, 9);
  });

  it('names the stretch that cannot be', () => {
    const steep = { ...level, lengthM: 100, gradient: 0.4 };
    expect(() => courseTime(rider, [...flat40, steep], 250)).toThrow(
      expect.objectContaining({ field: 'stretches.1.gradient' }),
    );
  });
});

describe('airDensity', () => {
  it('thins with heat, height and moisture, and carries the errors of the readings', () => {
    const weather = { temperatureC: 20, pressurePa: 100_000, relativeHumidity: 0.5 };
    const { densityKgPerM3 } = airDensity(weather);
    expect(densityKgPerM3.value).toBe(airDensityKgPerM3(weather));
    // One kelvin is a 293rd, two hectopascal a 500th of the density; moisture adds little.
    expect(densityKgPerM3.sd / densityKgPerM3.value).toBeCloseTo(Math.hypot(1 / 293.15, 1 / 500), 3);
    expect(airDensityKgPerM3({ ...weather, temperatureC: 30 })).toBeLessThan(densityKgPerM3.value);
    expect(airDensityKgPerM3({ ...weather, pressurePa: 90_000 })).toBeLessThan(densityKgPerM3.value);
    expect(airDensityKgPerM3({ ...weather, relativeHumidity: 1 })).toBeLessThan(densityKgPerM3.value);
  });

  it('keeps the slope of a reading at the edge of its range', () => {
    const dry = airDensity({ temperatureC: 20, pressurePa: 100_000, relativeHumidity: 0 });
    const nearlyDry = airDensity({ temperatureC: 20, pressurePa: 100_000, relativeHumidity: 0.06 });
    expect(dry.densityKgPerM3.sd).toBeCloseTo(nearlyDry.densityKgPerM3.sd, 4);
  });
});

describe('loweringGain', () => {
  it('holds nothing gained within its range and its estimate between the ends', () => {
    fc.assert(
      fc.property(number(-60, 60), number(0, 0.03), number(120, 400), (loweredMm, dragAreaSdM2, powerW) => {
        const { timeSavedS } = loweringGain({ ...lowering, loweredMm, dragAreaSdM2, powerW });
        expect(timeSavedS.low).toBeLessThanOrEqual(0);
        expect(timeSavedS.high).toBeGreaterThanOrEqual(0);
        expect(timeSavedS.low).toBeLessThanOrEqual(timeSavedS.estimate);
        expect(timeSavedS.high).toBeGreaterThanOrEqual(timeSavedS.estimate);
      }),
    );
  });

  it('says so when the change is less than one run-to-run error, and not when it is more', () => {
    const small = loweringGain(lowering);
    expect(small.lessThanOneRunToRunError).toBe(true);
    expect(small.cautions.map(({ code }) => code)).toContain('less-than-run-to-run-error');
    const large = loweringGain({ ...lowering, loweredMm: 100 });
    expect(large.lessThanOneRunToRunError).toBe(false);
    expect(large.cautions.map(({ code }) => code)).not.toContain('less-than-run-to-run-error');
  });

  it('changes nothing when nothing moves', () => {
    const { timeSavedS, dragAreaChangeM2: change } = loweringGain({ ...lowering, loweredMm: 0 });
    expect(timeSavedS).toEqual({ estimate: 0, low: 0, high: 0 });
    expect(change).toEqual({ estimate: 0, low: 0, high: 0 });
  });

  it('widens with a rider whose drag area is less well known', () => {
    const known = loweringGain({ ...lowering, dragAreaSdM2: 0 }).timeSavedS;
    expect(loweringGain(lowering).timeSavedS.high).toBeGreaterThan(known.high);
  });
});

describe('ranges of air', () => {
  it('mirrors a raised saddle', () => {
    const down = dragAreaChangeM2(12);
    const up = dragAreaChangeM2(-12);
    expect(up).toEqual({ estimate: -down.estimate, low: 0, high: -down.low });
  });

  it('answers 1 for a rider compared with themselves', () => {
    expect(timeTrialAreaRatio({ statureM: 1.8, massKg: 75 }, { statureM: 1.8, massKg: 75 })).toBe(1);
  });

  it.each([
    [
      'temperatureC',
      () => airDensityKgPerM3({ temperatureC: Number.NaN, pressurePa: 1e5, relativeHumidity: 0 }),
    ],
    [
      'relativeHumidity',
      () => airDensityKgPerM3({ temperatureC: 20, pressurePa: 1e5, relativeHumidity: 50 }),
    ],
    ['dragAreaM2', () => steadySpeedMps({ ...rider, dragAreaM2: 0 }, level, 200)],
    ['powerW', () => steadySpeedMps(rider, level, Number.POSITIVE_INFINITY)],
    ['dragAreaM2.low', () => loweringGain({ ...lowering, dragAreaSdM2: 0.15 })],
    [
      'rider.statureM',
      () => timeTrialAreaRatio({ statureM: 180, massKg: 75 }, { statureM: 1.8, massKg: 75 }),
    ],
  ])('names an impossible %s', (field, call) => {
    expect(call).toThrow(FitMathError);
    expect(call).toThrow(expect.objectContaining({ field }));
  });
});
