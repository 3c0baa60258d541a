import { minorUnits, roundedQuotient, safeNumber, thousandths } from './exact.js';

/** Percent with at most three decimals, like `25`, `8.1` or `9.975`. */
export const taxRateForm = /^(?:100|\d{1,2}(?:\.\d{1,3})?)$/;

export interface Taxed {
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
}

/**
 * Split a price into net, tax and gross; the parts always add up. Exact whole-number arithmetic; a half minor unit is
 * rounded away from zero (house rule: the rounding a till receipt shows; local tax law may want another).
 *
 * @param price.amountMinor whole number of minor units
 * @param price.taxRatePercent decimal text, 0 to 100 with at most three decimals
 * @param price.taxIncluded whether the amount holds the tax already
 * @throws RangeError for an amount that is no safe whole number, or a rate of another form
 * @example taxed({ amountMinor: 10_000, taxRatePercent: '25', taxIncluded: true }) // net 8000, tax 2000
 */
export function taxed(price: { amountMinor: number; taxRatePercent: string; taxIncluded: boolean }): Taxed {
  const { amountMinor, taxRatePercent, taxIncluded } = price;
  const amount = minorUnits('amountMinor', amountMinor);
  const rate = rateInThousandths(taxRatePercent);
  const tax = roundedQuotient(amount * rate, taxIncluded ? whole + rate : whole);
  const net = taxIncluded ? amount - tax : amount;
  return { netMinor: safeNumber(net), taxMinor: safeNumber(tax), grossMinor: safeNumber(net + tax) };
}

/** 100 % in thousandths of a percent. */
const whole = 100_000n;

/** @throws RangeError for a rate of another form */
export function rateInThousandths(ratePercent: string): bigint {
  if (!taxRateForm.test(ratePercent)) {
    throw new RangeError(`${ratePercent} is no rate in percent with at most three decimals`);
  }
  return thousandths(ratePercent);
}
