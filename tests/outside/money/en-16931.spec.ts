import { describe, expect, it } from '@jest/globals';
import { decimalAmount, priceLines, taxed, type LineToPrice } from '@studio/money';

/**
 * EN 16931-1, sums of an invoice: BR-CO-10 (lines), BR-CO-14 (taxes), BR-CO-15 (total with tax) and BR-CO-17 (tax of a
 * category is its taxable amount times its rate, rounded to two decimals). The worked invoices are those the European
 * Commission publishes with its validation rules: github.com/ConnectingEurope/eInvoicing-EN16931, ubl/examples, files
 * ubl-tc434-example1.xml, -example2.xml, -example4.xml and -example8.xml.
 */
const line = (
  quantity: number,
  price: string,
  rate: number,
  more: Partial<LineToPrice> = {},
): LineToPrice => ({
  quantity: String(quantity),
  unitPriceMinor: minor(price),
  discount: null,
  taxClass: 'S',
  taxRatePercent: String(rate),
  ...more,
});
const minor = (amount: string): number => Number(amount.replace('.', ''));
const off = (amount: string): Partial<LineToPrice> => ({ discount: { amountMinor: minor(amount) } });

/** Priced without tax, and read as the published document writes it. */
function read(lines: readonly LineToPrice[]) {
  const priced = priceLines({ taxIncluded: false, lines, discount: null });
  const amount = (amountMinor: number) => decimalAmount(amountMinor, 'EUR');
  return {
    lines: amount(priced.lines.reduce((sum, { netMinor }) => sum + netMinor, 0)),
    taxes: priced.taxes.map(({ taxRatePercent, netMinor, taxMinor }) => [
      taxRatePercent,
      amount(netMinor),
      amount(taxMinor),
    ]),
    tax: amount(priced.taxMinor),
    withTax: amount(priced.grossMinor),
  };
}

describe('worked invoices of EN 16931', () => {
  it('example 1: twenty lines at two rates', () => {
    // Its line 20 takes back goods for 109.98; nothing here is sold in negative numbers, so lines 1 and 19 bear that.
    const lines = [
      line(2, '9.95', 6, off('7.86')),
      line(1, '9.85', 6),
      line(1, '8.29', 6),
      line(2, '7.23', 6),
      line(1, '35.00', 6),
      line(1, '35.00', 6),
      line(1, '10.65', 6),
      line(1, '1.55', 6),
      line(3, '4.79', 6),
      line(1, '8.29', 6),
      line(2, '8.29', 6),
      line(1, '9.95', 6),
      line(2, '1.65', 6),
      line(1, '10.80', 21),
      line(1, '3.90', 6),
      line(2, '3.80', 21),
      line(2, '4.67', 21),
      line(1, '18.63', 21),
      line(6, '17.02', 6, off('102.12')),
    ];
    expect(read(lines)).toEqual({
      lines: '229.60',
      taxes: [
        ['6', '183.23', '10.99'],
        ['21', '46.37', '9.74'],
      ],
      tax: '20.73',
      withTax: '250.33',
    });
  });

  it('example 2: half a minor unit is rounded up', () => {
    expect(taxed({ amountMinor: 146_050, taxRatePercent: '25', taxIncluded: false }).taxMinor).toBe(36_513);
    expect(taxed({ amountMinor: 100, taxRatePercent: '15', taxIncluded: false }).taxMinor).toBe(15);
  });

  it('example 4: many of a thing, at two rates', () => {
    expect(read([line(1000, '1.00', 25), line(100, '5.00', 25), line(500, '5.00', 12)])).toEqual({
      lines: '4000.00',
      taxes: [
        ['25', '1500.00', '375.00'],
        ['12', '2500.00', '300.00'],
      ],
      tax: '675.00',
      withTax: '4675.00',
    });
  });

  it('example 8: the tax of the sum', () => {
    const { taxMinor, grossMinor } = taxed({ amountMinor: 90_891, taxRatePercent: '21', taxIncluded: false });
    expect([taxMinor, grossMinor]).toEqual([19_087, 109_978]);
  });
});
