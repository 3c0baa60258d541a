import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { distribute } from './distribute.js';
import { DiscountTooLarge, priceLines, taxOfPart, type Discount, type LineToPrice } from './price-lines.js';

const weights = fc.array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 1, maxLength: 12 });

describe('distribute', () => {
  it('gives each its part, and what is left to those cut short the most', () => {
    expect(distribute(100, [1, 1, 1])).toEqual([34, 33, 33]);
    expect(distribute(-100, [1, 1, 1])).toEqual([-34, -33, -33]);
    expect(distribute(10, [0, 5, 1])).toEqual([0, 8, 2]);
    expect(distribute(0, [0, 0])).toEqual([0, 0]);
  });

  it('loses no minor unit, and gives nobody a unit more or less than its part', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), weights, (amount, parts) => {
        const whole = parts.reduce((sum, part) => sum + part, 0);
        fc.pre(whole > 0);
        const shares = distribute(amount, parts);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBe(amount);
        for (const [index, share] of shares.entries()) {
          expect(Math.abs(share - (amount * (parts[index] as number)) / whole)).toBeLessThan(1);
        }
      }),
    );
  });

  it('refuses an amount nobody bears, and a weight below none', () => {
    expect(() => distribute(1, [0])).toThrow(RangeError);
    expect(() => distribute(1, [2, -1])).toThrow(RangeError);
  });
});

const line = (unitPriceMinor: number, more: Partial<LineToPrice> = {}): LineToPrice => ({
  quantity: '1',
  unitPriceMinor,
  discount: null,
  taxClass: 'standard',
  taxRatePercent: '25',
  ...more,
});

describe('priceLines', () => {
  it('takes discounts off before tax, the one on the whole in proportion', () => {
    const reduced = { taxClass: 'reduced', taxRatePercent: '12' };
    const priced = priceLines({
      taxIncluded: false,
      lines: [line(10_000, { discount: { percent: '10' } }), line(500, { ...reduced, quantity: '2' })],
      discount: { amountMinor: 100 },
    });
    expect(priced.lines.map(({ amountMinor }) => amountMinor)).toEqual([8910, 990]);
    expect(priced.lines.map(({ discountMinor }) => discountMinor)).toEqual([1090, 10]);
    expect(priced.taxes).toEqual([
      { taxClass: 'standard', taxRatePercent: '25', netMinor: 8910, taxMinor: 2228, grossMinor: 11_138 },
      { taxClass: 'reduced', taxRatePercent: '12', netMinor: 990, taxMinor: 119, grossMinor: 1109 },
    ]);
  });

  it('works tax out on the sum of a rate, not line by line', () => {
    const { taxMinor, lines } = priceLines({
      taxIncluded: false,
      lines: [line(2), line(2), line(2)],
      discount: null,
    });
    expect(taxMinor).toBe(2);
    expect(lines.map((one) => one.taxMinor)).toEqual([1, 1, 0]);
  });

  it('names the line whose discount is more than the line', () => {
    const refused = (discount: Discount | null, whole: Discount | null) => {
      try {
        priceLines({ taxIncluded: true, lines: [line(5), line(10, { discount })], discount: whole });
      } catch (error) {
        return error instanceof DiscountTooLarge ? error.line : error;
      }
      return 'priced';
    };
    expect(refused({ amountMinor: 11 }, null)).toBe(1);
    expect(refused(null, { amountMinor: 16 })).toBeNull();
    expect(refused({ amountMinor: 10 }, { amountMinor: 5 })).toBe('priced');
  });

  const anyDiscount = fc.option(
    fc.oneof(
      fc.integer({ min: 0, max: 100 }).map((percent): Discount => ({ percent: String(percent) })),
      fc.integer({ min: 0, max: 50 }).map((amountMinor): Discount => ({ amountMinor })),
    ),
  );
  const anyLine = fc.record({
    quantity: fc.constantFrom('1', '2', '0.5', '1.333', '12'),
    unitPriceMinor: fc.integer({ min: 200, max: 5_000_000 }),
    discount: anyDiscount,
    taxClass: fc.constantFrom('standard', 'reduced'),
    taxRatePercent: fc.constantFrom('0', '8.1', '19', '25'),
  });

  it('adds up: by line, by rate and as a whole', () => {
    const total = (amounts: number[]) => amounts.reduce((sum, amount) => sum + amount, 0);
    fc.assert(
      fc.property(
        fc.boolean(),
        fc.array(anyLine, { minLength: 1, maxLength: 8 }),
        fc.option(fc.integer({ min: 0, max: 99 })),
        (taxIncluded, lines, percent) => {
          const priced = priceLines({
            ...{ taxIncluded, lines },
            discount: percent === null ? null : { percent: String(percent) },
          });
          for (const part of ['netMinor', 'taxMinor', 'grossMinor'] as const) {
            expect(total(priced.lines.map((one) => one[part]))).toBe(priced[part]);
            expect(total(priced.taxes.map((one) => one[part]))).toBe(priced[part]);
          }
          for (const one of priced.lines) {
            expect(one.fullMinor - one.discountMinor).toBe(one.amountMinor);
            expect(taxIncluded ? one.grossMinor : one.netMinor).toBe(one.amountMinor);
            expect(Math.min(one.netMinor, one.taxMinor, one.discountMinor)).toBeGreaterThanOrEqual(0);
          }
        },
      ),
    );
  });
});

describe('taxOfPart', () => {
  it('gives back exactly the tax of a line, in whatever parts', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 10_000 }), { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 0, max: 100 }),
        (parts, percent) => {
          const amountMinor = parts.reduce((sum, part) => sum + part, 0);
          const taxMinor = Math.floor((amountMinor * percent) / 100);
          let before = 0;
          let back = 0;
          for (const part of parts) {
            back += taxOfPart({ amountMinor, taxMinor }, before, part);
            before += part;
          }
          expect(back).toBe(taxMinor);
        },
      ),
    );
  });

  it('never gives back more than the line', () => {
    expect(() => taxOfPart({ amountMinor: 100, taxMinor: 20 }, 60, 41)).toThrow(RangeError);
  });
});
