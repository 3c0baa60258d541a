import { describe, expect, it } from '@jest/globals';
import {
  airDensityKgPerM3,
  courseTime,
  handPositionAreaRatios,
  roadPower,
  runToRunDragAreaM2,
  saturationVapourPressurePa,
  standardPressurePa,
  standardTemperatureK,
  steadySpeedMps,
  timeTrialAreaRatio,
  windOnRoad,
  type RiderOnRoad,
  type Road,
} from '@studio/fit-math';
import psychrolib from 'psychrolib';

const within = (found: number, expected: number, tolerance: number): void => {
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance);
};

describe('worked example in the appendix of Martin et al. 1998, J Appl Biomech 14(3):276–291', () => {
  const durationS = 56.42;
  const power = roadPower(
    { totalMassKg: 90, dragAreaM2: 0.2565, rollingCoefficient: 0.0032 },
    { gradient: 0.003, airDensityKgPerM3: 1.2234, wind: windOnRoad(2.94, 310, 340) },
    471.8 / durationS,
    { fromMps: 8.28, toMps: 8.45, durationS },
  );

  it.each([
    ['airW', 158.8],
    ['rollingW', 23.6],
    ['bearingsW', 1.4],
    ['climbingW', 22.1],
    ['acceleratingW', 2.3],
  ] as const)('%s is %d W, ±0.15', (term, publishedW) => {
    within(power[term], publishedW, 0.15);
  });

  it('comes to 213.3 W at the pedals, ±0.2', () => {
    within(power.pedalW, 213.3, 0.2);
  });

  it('meets the air at 10.91 m/s and 7.7° (recomputed; the paper prints neither)', () => {
    within(power.airSpeedMps, 10.9084, 0.0001);
    within(Math.abs(power.yawDeg), 7.675, 0.001);
  });
});

describe('time saved by 0.010 m² less drag area over 40 km: derived from the same equation, apart from this library', () => {
  const road: Road = {
    gradient: 0,
    airDensityKgPerM3: 1.2,
    wind: { headwindMps: 0, crosswindMps: 0 },
  };
  const rider: RiderOnRoad = { totalMassKg: 85, dragAreaM2: 0.32, rollingCoefficient: 0.0032 };
  const rows: readonly [powerW: number, speedKmh: number, timeS: number, savedS: number][] = [
    [150, 30.821, 4672.2, 45.4],
    [200, 34.285, 4200.0, 41.3],
    [250, 37.189, 3872.1, 38.4],
    [300, 39.714, 3626.0, 36.1],
    [350, 41.963, 3431.6, 34.3],
  ];
  const savedS = (powerW: number): number => {
    const course = [{ ...road, lengthM: 40_000 }];
    return (
      courseTime(rider, course, powerW).durationS -
      courseTime({ ...rider, dragAreaM2: 0.31 }, course, powerW).durationS
    );
  };

  it.each(rows)('%d W: %d km/h, %d s, %d s saved', (powerW, speedKmh, timeS, saved) => {
    within(steadySpeedMps(rider, road, powerW) * 3.6, speedKmh, 0.001);
    within(courseTime(rider, [{ ...road, lengthM: 40_000 }], powerW).durationS, timeS, 0.06);
    within(savedS(powerW), saved, 0.06);
  });

  it('saves a slower rider more seconds: the pattern of Jeukendrup & Martin 2001, Sports Med 31(7):559–569', () => {
    const saved = rows.map(([powerW]) => savedS(powerW));
    expect(saved).toEqual([...saved].sort((a, b) => b - a));
  });

  it.each([
    [30, 3.56],
    [35, 5.65],
    [40, 8.43],
    [45, 12.01],
  ])('costs %d km/h riders %d W per 0.010 m²', (speedKmh, watts) => {
    const at = (dragAreaM2: number): number =>
      roadPower({ ...rider, dragAreaM2 }, road, speedKmh / 3.6).pedalW;
    within(at(0.32) - at(0.31), watts, 0.006);
  });
});

describe('40 km saved against the hoods: Jeukendrup & Martin 2001, by way of a secondary summary', () => {
  // Drag areas from memory; one power for each rider is fitted to the drops row, as are the other rows from it.
  const dragAreaM2 = { hoods: 0.358, drops: 0.307, aero: 0.269, optimised: 0.24 };
  const course = [
    { lengthM: 40_000, gradient: 0, airDensityKgPerM3: 1.2, wind: { headwindMps: 0, crosswindMps: 0 } },
  ];
  const savedS = (position: keyof typeof dragAreaM2, powerW: number): number => {
    const time = (area: number): number =>
      courseTime({ totalMassKg: 80, dragAreaM2: area, rollingCoefficient: 0.0035 }, course, powerW).durationS;
    return time(dragAreaM2.hoods) - time(dragAreaM2[position]);
  };
  const powerFor = (dropsSavedS: number): number => {
    let low = 50;
    let high = 800;
    for (let i = 0; i < 40; i += 1) {
      const middle = (low + high) / 2;
      if (savedS('drops', middle) > dropsSavedS) low = middle;
      else high = middle;
    }
    return low;
  };

  it.each([
    ['novice', 226, 409, 561],
    ['trained', 186, 336, 462],
    ['elite', 167, 299, 414],
  ])('%s: within 6 s', (_, dropsS, aeroS, optimisedS) => {
    const powerW = powerFor(dropsS);
    within(savedS('aero', powerW), aeroS, 6);
    within(savedS('optimised', powerW), optimisedS, 6);
  });
});

describe('density of air', () => {
  it.each([
    [15, 0, 101325, 1.22552],
    [20, 0, 101325, 1.20456],
    [20, 0.5, 101325, 1.19931],
    [20, 0.7, 101325, 1.19722],
    [25, 0.6, 101325, 1.17592],
    [10, 0.8, 101325, 1.24267],
    [30, 0.7, 101325, 1.15184],
    [20, 0.4, 79495, 0.94077],
  ])(
    '%d °C, humidity %d, %d Pa: CIPM-2007 (Picard et al. 2008, Metrologia 45:149–155) %d kg/m³, ±0.06 %%',
    (temperatureC, relativeHumidity, pressurePa, published) => {
      const found = airDensityKgPerM3({ temperatureC, relativeHumidity, pressurePa });
      within(found / published, 1, 0.0006);
    },
  );

  it('agrees with psychrolib within 0.02 % over the weather one rides in', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (let temperatureC = 0; temperatureC <= 40; temperatureC += 5) {
      for (const relativeHumidity of [0.1, 0.5, 0.9]) {
        for (const pressurePa of [75000, 90000, 101325]) {
          const ratio = psychrolib.GetHumRatioFromRelHum(temperatureC, relativeHumidity, pressurePa);
          const oracle = psychrolib.GetMoistAirDensity(temperatureC, ratio, pressurePa);
          within(airDensityKgPerM3({ temperatureC, relativeHumidity, pressurePa }) / oracle, 1, 0.0002);
        }
      }
    }
  });

  it.each([
    [0, 611.21],
    [10, 1228.11],
    [20, 2339.16],
    [30, 4246.8],
  ])('saturation at %d °C: CIPM-2007 %d Pa, ±0.31 %%', (temperatureC, published) => {
    within(saturationVapourPressurePa(temperatureC) / published, 1, 0.0031);
  });

  it.each([
    [0, 101325],
    [500, 95461],
    [1000, 89875],
    [4000, 61640],
  ])('at %d m: ASHRAE Handbook 2017, chapter 1, table 1: %d Pa, ±1', (altitudeM, published) => {
    within(standardPressurePa(altitudeM), published, 1);
  });

  it.each([
    [0, 288.15, 1.225],
    [500, 284.9, 1.16727],
    [1000, 281.65, 1.11164],
    [1500, 278.4, 1.05807],
    [2000, 275.15, 1.00649],
    [2500, 271.9, 0.95686],
    [3000, 268.65, 0.90912],
    [4000, 262.15, 0.81913],
  ])(
    'at %d m geopotential: U.S. Standard Atmosphere 1976: %d K, dry density %d kg/m³, ±0.003 %%',
    (altitudeM, kelvin, density) => {
      within(standardTemperatureK(altitudeM), kelvin, 0.0001);
      const found = airDensityKgPerM3({
        temperatureC: kelvin - 273.15,
        pressurePa: standardPressurePa(altitudeM),
        relativeHumidity: 0,
      });
      within(found / density, 1, 0.00003);
    },
  );

  it('agrees with psychrolib on the standard pressure, ±2 Pa', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (let altitudeM = -500; altitudeM <= 5000; altitudeM += 250) {
      within(standardPressurePa(altitudeM), psychrolib.GetStandardAtmPressure(altitudeM), 2);
    }
  });
});

describe('areas, as ratios only', () => {
  it('Heil 2002, Eur J Appl Physiol 87:520–528, over the hoods (coefficients secondary)', () => {
    within(handPositionAreaRatios.tops, 0.934, 0.0005);
    within(handPositionAreaRatios.drops, 0.946, 0.0005);
    within(handPositionAreaRatios.low_extensions, 0.817, 0.0005);
  });

  it('Bassett et al. 1999, MSSE 31(11):1665–1676 (formula secondary, recomputed)', () => {
    const area = { '1.80/75': 0.3415, '1.75/70': 0.3278, '1.65/55': 0.2917, '1.90/90': 0.3763 };
    const middle = { statureM: 1.75, massKg: 70 };
    for (const [size, areaM2] of Object.entries(area)) {
      const [statureM = 0, massKg = 0] = size.split('/').map(Number);
      within(timeTrialAreaRatio({ statureM, massKg }, middle), areaM2 / area['1.75/70'], 0.0004);
    }
  });

  it('one run to the next of one rider differs by 0.0312 m² (open data, forearms-advantage-model)', () => {
    const runs = [
      [0.366, 0.363, 0.356],
      [0.351, 0.329, 0.327],
      [0.325, 0.306, 0.321],
      [0.334, 0.308, 0.333],
      [0.277, 0.281, 0.261],
    ];
    const squares = runs.map((position) => {
      const mean = position.reduce((sum, area) => sum + area, 0) / position.length;
      return position.reduce((sum, area) => sum + (area - mean) ** 2, 0);
    });
    const sd = Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / 10);
    within(sd, 0.01125, 0.00001);
    within(runToRunDragAreaM2, 1.96 * Math.SQRT2 * sd, 0.00005);
  });
});
