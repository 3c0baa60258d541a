import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { convertQuantity, keptIn, readQuantity, unitsOf, type Quantity } from '../index.js';

const anyNumber = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const quantities = Object.keys(keptIn) as Quantity[];
const anyConversion = fc
  .constantFrom(...quantities)
  .chain((quantity) =>
    fc.tuple(
      fc.constant(quantity),
      fc.constantFrom(...(unitsOf[quantity] as readonly string[])),
      fc.constantFrom(...(unitsOf[quantity] as readonly string[])),
    ),
  );
const convert = convertQuantity as (quantity: Quantity, value: number, from: string, to: string) => number;
const near = (found: number, wanted: number): void => {
  expect(Math.abs(found - wanted)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(wanted)));
};

describe('convertQuantity', () => {
  it('is undone by converting back, through any third unit', () => {
    fc.assert(
      fc.property(anyConversion, anyNumber, ([quantity, from, to], value) => {
        near(convert(quantity, convert(quantity, value, from, to), to, from), value);
        const kept = keptIn[quantity];
        near(
          convert(quantity, convert(quantity, value, from, kept), kept, to),
          convert(quantity, value, from, to),
        );
      }),
    );
  });

  it('refuses what is no number', () => {
    expect(() => convertQuantity('mass', Number.NaN, 'lb', 'kg')).toThrow(/^value: /);
  });
});

describe('readQuantity', () => {
  it.each([
    ['34.5 cm', 345],
    ['34,5cm', 345],
    ['.5 m', 500],
    ['345 mm.', 345],
    ['13 5/8"', 346.075],
    ['13 5/8 in', 346.075],
    ['13⅝″', 346.075],
    ['5/8 inch', 15.875],
    ['2\' 9"', 838.2],
    ['2 ft 9 in', 838.2],
    ['2′9½″', 850.9],
    ["2'", 609.6],
    ["6' 1", 1854.2],
    ["9''", 228.6],
    ['−12 mm', -12],
    ['- 12 MM', -12],
    ['+3 mm', 3],
  ])('reads the length %s', (typed, mm) => {
    near(readQuantity('height', typed, 'length'), mm);
  });

  it.each([
    ['mass', '72,5 kg', 72.5],
    ['mass', '160 lb', 72.5747792],
    ['mass', '160lbs', 72.5747792],
    ['mass', '850 g', 0.85],
    ['power', '250 W', 250],
    ['power', '0.25 kW', 250],
    ['power', '250 watts', 250],
    ['angle', '73.5°', 73.5],
    ['angle', '-6 degrees', -6],
  ] as const)('reads the %s %s', (quantity, typed, kept) => {
    near(readQuantity('input', typed, quantity), kept);
  });

  it('reads a bare number in the unit shown beside the input only', () => {
    expect(readQuantity('height', '34,5', 'length', 'cm')).toBe(345);
    expect(readQuantity('height', '34 mm', 'length', 'cm')).toBe(34);
    expect(() => readQuantity('height', '34,5', 'length')).toThrow(
      expect.objectContaining({ code: 'input.not-readable', field: 'height' }),
    );
  });

  it.each([
    'abc',
    '',
    'cm',
    '12 parsec',
    '12 kg',
    '1,250 mm',
    '1.250,5 mm',
    '12..5 mm',
    '5/0 in',
    '3 4 mm',
    '12 mm 3',
    'Infinity mm',
    'NaN mm',
    '1e3 mm',
    "2' x",
    '9'.repeat(400),
    `${'9'.repeat(400)} mm`,
    `${'9'.repeat(400)}' 3"`,
  ])('refuses %j and names the field', (typed) => {
    expect(() => readQuantity('saddleHeight', typed, 'length')).toThrow(
      expect.objectContaining({ name: 'FitMathError', code: 'input.not-readable', field: 'saddleHeight' }),
    );
  });

  it('reads back what it is written as, in every unit', () => {
    fc.assert(
      fc.property(anyConversion, fc.integer({ min: 0, max: 999_999 }), ([quantity, unit], hundredths) => {
        const value = hundredths / 100;
        near(
          readQuantity('x', `${value} ${unit}`, quantity),
          convert(quantity, value, unit, keptIn[quantity]),
        );
        near(
          readQuantity('x', `${value.toFixed(2).replace('.', ',')}${unit}`, quantity),
          convert(quantity, value, unit, keptIn[quantity]),
        );
      }),
    );
  });

  it('reads sixteenths of an inch, with and without feet', () => {
    fc.assert(
      fc.property(fc.nat(7), fc.nat(11), fc.integer({ min: 1, max: 15 }), (feet, inches, sixteenths) => {
        const mm = 304.8 * feet + 25.4 * (inches + sixteenths / 16);
        near(readQuantity('x', `${feet}' ${inches} ${sixteenths}/16"`, 'length'), mm);
        near(readQuantity('x', `${12 * feet + inches} ${sixteenths}/16 in`, 'length'), mm);
      }),
    );
  });

  it('lets no text through as anything but a finite number or its own error', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom(...quantities), (typed, quantity) => {
        try {
          expect(Number.isFinite(readQuantity('x', typed, quantity))).toBe(true);
        } catch (error) {
          expect(error).toMatchObject({ name: 'FitMathError', field: 'x' });
        }
      }),
    );
  });
});
