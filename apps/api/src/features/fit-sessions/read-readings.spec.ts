import { describe, expect, it } from '@jest/globals';
import { FitMathError } from '@studio/fit-math';
import { InvalidRequest } from '../../http/problem.js';
import { WrongSide } from './fit-sessions.errors.js';
import { readReadings } from './read-readings.js';

const thigh = { kind: 'thigh_length', side: 'left', method: 'tape' } as const;

describe('readReadings', () => {
  it('keeps what was typed beside what it comes to', () => {
    const read = readReadings({ ...thigh, repeats: ['16 3/8 in', '41,6 cm'] });
    expect(read).toMatchObject({ typed: ['16 3/8 in', '41,6 cm'], unit: 'mm', warning: null });
    expect(read.repeats[0]).toBeCloseTo(415.925, 9);
    expect(read.mean).toBeCloseTo((415.925 + 416) / 2, 9);
  });

  it('takes a text without a unit, or a number, to be of the unit beside it', () => {
    const read = readReadings({ ...thigh, repeats: ['41,5', 41.6, '16 3/8 in'], unit: 'cm' });
    expect(read).toMatchObject({ typed: ['41,5', '41.6 cm', '16 3/8 in'], unit: 'mm' });
    expect(read.mean).toBeCloseTo((415 + 416 + 415.925) / 3, 9);
    const pitch = { kind: 'foot_pitch', side: 'left', method: 'video' } as const;
    expect(readReadings({ ...pitch, repeats: ['-8°'] })).toMatchObject({ mean: -8, unit: 'deg' });
  });

  it('takes every unit of a length', () => {
    const means = (
      [
        [416, 'mm'],
        [41.6, 'cm'],
        [0.416, 'm'],
        [416 / 25.4, 'in'],
        [416 / 304.8, 'ft'],
      ] as const
    ).map(([reading, unit]) => readReadings({ ...thigh, repeats: [reading], unit }).mean);
    for (const mean of means) expect(mean).toBeCloseTo(416, 9);
  });

  it.each([
    ['an impossible reading', ['3 in'], /^repeats\.0: /],
    ['one that is none', ['41 cm', 'long'], /^repeats\.1: /],
    ['one without a unit', ['41'], /^repeats\.0: /],
  ])('refuses %s, by its place', (_, repeats, message) => {
    const read = () => readReadings({ ...thigh, repeats });
    expect(read).toThrow(FitMathError);
    expect(read).toThrow(message);
  });

  it('refuses numbers of no unit', () => {
    expect(() => readReadings({ ...thigh, repeats: [41] })).toThrow(InvalidRequest);
  });

  it('refuses a side that is missing or does not belong', () => {
    const readings = { method: 'tape', repeats: [820], unit: 'mm' } as const;
    expect(() => readReadings({ kind: 'thigh_length', ...readings, repeats: [410] })).toThrow(WrongSide);
    expect(() => readReadings({ kind: 'inseam', side: 'left', ...readings, repeats: [820] })).toThrow(
      WrongSide,
    );
  });
});
