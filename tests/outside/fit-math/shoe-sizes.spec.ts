import { describe, expect, it } from '@jest/globals';
import { footLengthOfSize, sizesOfFoot, type SizeSystem } from '@studio/fit-math';
import { convert, iso, type Converted } from 'shoe-size-converter';

const inch = 25.4;

describe('the steps of ISO/TS 19407:2015', () => {
  // As the standard's published summary gives them: 5 mm, 6.67 mm from zero, and the barleycorn of a third of an inch.
  it.each([
    ['mondopoint', 5, 5],
    ['eu', 1, 6.67],
    ['uk', 1, 8.47],
    ['us_men', 1, 8.47],
    ['us_women', 1, 8.47],
  ] as const)('%s', (system, sizes, stepMm) => {
    const size = system === 'mondopoint' ? 260 : system === 'eu' ? 42 : 8;
    const step = footLengthOfSize(system, size + sizes) - footLengthOfSize(system, size);
    expect(Math.abs(step - stepMm)).toBeLessThan(0.005);
  });

  it('counts European sizes from nothing: size 0 would be a last of no length', () => {
    // Two sizes of last beyond the foot: 43 sizes of last are 43 × 2/3 cm.
    expect(footLengthOfSize('eu', 43) + 2 * (20 / 3)).toBeCloseTo((43 * 20) / 3, 9);
  });
});

describe('a published chart of foot lengths', () => {
  /** United States men's sizes and inches of foot, as printed in a maker's conversion chart (cdn.shopify.com, 0611/5852/3123). */
  const chart: readonly (readonly [number, number])[] = [
    [5, 9.0],
    [5.5, 9.17],
    [6, 9.33],
    [6.5, 9.5],
    [7, 9.67],
    [7.5, 9.83],
    [8, 10.0],
    [8.5, 10.17],
    [9, 10.33],
    [9.5, 10.5],
    [10, 10.67],
    [10.5, 10.83],
    [11, 11.0],
    [11.5, 11.16],
    [12, 11.33],
    [13, 11.66],
    [14, 12.0],
    [15, 12.33],
  ];

  it.each(chart)('men’s size %d is for %d inches', (size, inches) => {
    expect(Math.abs(footLengthOfSize('us_men', size) - inches * inch)).toBeLessThan(0.3);
  });
});

describe('an open library of size systems, which goes by way of the foot as the standard does', () => {
  const named: Readonly<Record<Exclude<SizeSystem, 'centimetre'>, (row: Converted) => boolean>> = {
    mondopoint: ({ system }) => system === 'mondopoint',
    eu: ({ system }) => system === 'eu',
    uk: ({ system }) => system === 'uk',
    us_men: ({ system, men }) => system === 'us' && men === true,
    us_women: ({ system, women }) => system === 'us' && women === true,
  };
  const lengths = Array.from({ length: 19 }, (_, step) => 220 + 5 * step);

  it.each(lengths)('%d mm', (footLengthMm) => {
    const theirs = convert({ size: footLengthMm, system: 'mondopoint' }, iso);
    for (const [system, isIt] of Object.entries(named)) {
      const their = theirs.find(isIt);
      const our = sizesOfFoot(footLengthMm).find((item) => item.system === system);
      expect([system, our?.marked]).toEqual([system, their?.size]);
    }
  });
});
