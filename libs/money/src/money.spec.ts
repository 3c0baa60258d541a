import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { decimalAmount } from './decimal-amount.js';
import { taxed } from './tax.js';

const amount = fc.integer({ min: -1_000_000_000, max: 1_000_000_000 });
const rate = fc
  .integer({ min: 0, max: 100_000 })
  .map((n) =>
    n % 1000 === 0 ? String(n / 1000) : `${Math.floor(n / 1000)}.${String(n % 1000).padStart(3, '0')}`,
  );

describe('decimalAmount', () => {
  it('has as many places as the currency', () => {
    expect(decimalAmount(5, 'EUR')).toBe('0.05');
    expect(decimalAmount(-129_950, 'DKK')).toBe('-1299.50');
    expect(decimalAmount(1500, 'JPY')).toBe('1500');
    expect(decimalAmount(1500, 'KWD')).toBe('1.500');
  });

  it('refuses what it cannot tell exactly', () => {
    expect(() => decimalAmount(0.5, 'EUR')).toThrow(RangeError);
    expect(() => decimalAmount(1, 'XAU')).toThrow(RangeError);
  });
});

describe('taxed', () => {
  it('takes the tax out of a price that holds it, and adds it to one that does not', () => {
    expect(taxed({ amountMinor: 10_000, taxRatePercent: '25', taxIncluded: true })).toEqual({
      netMinor: 8000,
      taxMinor: 2000,
      grossMinor: 10_000,
    });
    expect(taxed({ amountMinor: 10_000, taxRatePercent: '9.975', taxIncluded: false })).toEqual({
      netMinor: 10_000,
      taxMinor: 998,
      grossMinor: 10_998,
    });
  });

  it('adds up, and is off the exact tax by half a minor unit at most', () => {
    fc.assert(
      fc.property(amount, rate, fc.boolean(), (amountMinor, taxRatePercent, taxIncluded) => {
        const { netMinor, taxMinor, grossMinor } = taxed({ amountMinor, taxRatePercent, taxIncluded });
        expect(netMinor + taxMinor).toBe(grossMinor);
        expect(taxIncluded ? grossMinor : netMinor).toBe(amountMinor);
        const part = Number(taxRatePercent) / 100;
        const exact = taxIncluded ? (amountMinor * part) / (1 + part) : amountMinor * part;
        expect(Math.abs(taxMinor - exact)).toBeLessThanOrEqual(0.5 + 1e-6);
      }),
    );
  });

  it('mirrors a refund exactly', () => {
    fc.assert(
      fc.property(amount, rate, fc.boolean(), (amountMinor, taxRatePercent, taxIncluded) => {
        const paid = taxed({ amountMinor, taxRatePercent, taxIncluded });
        const back = taxed({ amountMinor: -amountMinor, taxRatePercent, taxIncluded });
        expect(back.taxMinor + paid.taxMinor).toBe(0);
      }),
    );
  });

  it.each(['', '-1', '101', '8.1234', '1e1', '100.5'])('refuses the rate %p', (taxRatePercent) => {
    expect(() => taxed({ amountMinor: 1, taxRatePercent, taxIncluded: true })).toThrow(RangeError);
  });
});
