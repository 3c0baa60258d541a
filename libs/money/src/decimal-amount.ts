import { minorUnitDigits } from './currencies.js';

/**
 * An amount of minor units, written as a decimal with the currency's own number of places.
 *
 * @param amountMinor whole number of minor units, may be negative
 * @param currency ISO 4217 code
 * @throws RangeError for an amount that is no safe whole number, or an unknown currency
 * @example decimalAmount(129_950, 'DKK') // '1299.50'
 */
export function decimalAmount(amountMinor: number, currency: string): string {
  const digits = minorUnitDigits(currency);
  if (digits === null) throw new RangeError(`${currency} is no currency of ISO 4217 with a minor unit`);
  if (!Number.isSafeInteger(amountMinor)) throw new RangeError('amountMinor must be a safe whole number');
  const sign = amountMinor < 0 ? '-' : '';
  const text = Math.abs(amountMinor)
    .toString()
    .padStart(digits + 1, '0');
  if (digits === 0) return sign + text;
  return `${sign}${text.slice(0, -digits)}.${text.slice(-digits)}`;
}
