import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { sideDifference } from './side-difference.js';
import { summariseRepeats } from './summarise-repeats.js';

describe('summariseRepeats', () => {
  it('finds the typical error of two readings to be their difference over √2', () => {
    const { mean, typicalError, minimalDetectableChange } = summariseRepeats([430, 438], 2);
    expect(mean).toEqual({ value: 434, sd: expect.closeTo(4, 10) });
    expect(typicalError).toBeCloseTo(8 / Math.SQRT2, 10);
    expect(minimalDetectableChange).toBeCloseTo(1.96 * Math.SQRT2 * 4, 10);
  });

  it('does not take readings that agree by luck for readings without error', () => {
    expect(summariseRepeats([434, 434, 434, 434], 8).mean.sd).toBe(4);
  });

  it('points at the reading to take again and keeps it in the mean', () => {
    const { readAgain, mean } = summariseRepeats([433, 434, 474], 8);
    expect(readAgain).toEqual([2]);
    expect(mean.value).toBe(447);
  });

  it.each([[[434]], [[1, 2, 3, 4, 5, 6]], [[434, Number.NaN]], [[434, Number.POSITIVE_INFINITY]]])(
    'refuses %j by name',
    (readings) => {
      expect(() => summariseRepeats(readings, 8)).toThrow(/^readings\./);
    },
  );

  it('does not depend on the order, and moves with its readings', () => {
    const reading = fc.double({ min: 100, max: 1200, noNaN: true });
    fc.assert(
      fc.property(fc.array(reading, { minLength: 2, maxLength: 5 }), (readings) => {
        const straight = summariseRepeats(readings, 5);
        const turned = summariseRepeats([...readings].reverse(), 5);
        const moved = summariseRepeats(
          readings.map((each) => each + 50),
          5,
        );
        expect(turned.mean.sd).toBeCloseTo(straight.mean.sd, 6);
        expect(moved.mean.value - straight.mean.value).toBeCloseTo(50, 6);
        expect(moved.typicalError).toBeCloseTo(straight.typicalError, 6);
      }),
    );
  });
});

describe('sideDifference', () => {
  it('adds the errors of both sides as squares and turns its sign with the sides', () => {
    const left = { value: 434, sd: 3 };
    const right = { value: 424, sd: 4 };
    expect(sideDifference(left, right)).toEqual({ difference: { value: 10, sd: 5 }, beyondError: true });
    expect(sideDifference(right, left)).toEqual({ difference: { value: -10, sd: 5 }, beyondError: true });
    expect(sideDifference(left, { value: 425, sd: 4 }).beyondError).toBe(false);
  });

  it('refuses a negative error', () => {
    expect(() => sideDifference({ value: 1, sd: -1 }, { value: 1, sd: 1 })).toThrow(/^left\.sd/);
  });
});
