import { describe, expect, it } from '@jest/globals';
import {
  FitMathError,
  measurementKinds,
  readMeasurement,
  usualHeightErrors,
  usualLandmarkErrors,
} from '../index.js';

describe('readMeasurement', () => {
  it('averages what was typed, in the unit the kind is kept in', () => {
    expect(readMeasurement('thigh_length', [41.2, 41.6], 'cm').mean).toBeCloseTo(414, 10);
    expect(readMeasurement('inseam', [32.5], 'in').mean).toBeCloseTo(825.5, 10);
    expect(readMeasurement('inseam', [2.7], 'ft').mean).toBeCloseTo(822.96, 10);
    expect(readMeasurement('stature', [1.74], 'm').mean).toBeCloseTo(1740, 10);
  });

  it('takes the usual error unless the readings differ by more', () => {
    expect(readMeasurement('thigh_length', [410, 412], 'mm').error).toBeCloseTo(8 / Math.SQRT2, 10);
    expect(readMeasurement('thigh_length', [390, 430], 'mm').error).toBeCloseTo(
      Math.hypot(20, 20) / Math.SQRT2,
      10,
    );
  });

  it('keeps an implausible value with its reason', () => {
    expect(readMeasurement('inseam', [600], 'mm').warning).toMatch(/outside 661 to 989/);
    expect(readMeasurement('inseam', [825], 'mm').warning).toBeNull();
  });

  it.each([
    ['repeats.1', [410, 4100], 'mm'],
    ['repeats.0', [Number.NaN], 'mm'],
    ['repeats', [], 'mm'],
    ['unit', [41], 'deg'],
  ] as const)('refuses an impossible %s', (field, readings, unit) => {
    expect(() => readMeasurement('thigh_length', readings, unit)).toThrow(FitMathError);
    expect(() => readMeasurement('thigh_length', readings, unit)).toThrow(
      new RegExp(`^${field.replace('.', '\\.')}: `),
    );
  });
});

describe('measurementKinds', () => {
  it.each(measurementKinds)(
    '$id: plausible within possible, an error well below either, two points named',
    (kind) => {
      const [lowest, highest] = kind.possible;
      const [low, high] = kind.plausible;
      expect(lowest).toBeLessThan(low);
      expect(low).toBeLessThan(high);
      expect(high).toBeLessThan(highest);
      expect(kind.usualError).toBeGreaterThan(0);
      expect(kind.usualError).toBeLessThan((high - low) / 6);
      expect(kind.definition).toMatch(/ to |^Trochanter, /);
    },
  );

  it('has the landmarks the segments are made of, with their errors', () => {
    const errorOf = (id: string): number | undefined =>
      measurementKinds.find((kind) => kind.id === id)?.usualError;
    expect(errorOf('trochanter_height')).toBe(usualHeightErrors.trochanterHeightMm);
    expect(errorOf('knee_height')).toBe(usualHeightErrors.kneeHeightMm);
    expect(errorOf('malleolus_height')).toBe(usualHeightErrors.malleolusHeightMm);
    expect(errorOf('ankle_from_heel')).toBe(usualHeightErrors.ankleFromHeelMm);
    expect(errorOf('cleat_from_heel')).toBe(usualHeightErrors.cleatFromHeelMm);
    expect(errorOf('mth5_from_heel')).toBe(usualLandmarkErrors.mth5FromHeelMm);
  });
});
