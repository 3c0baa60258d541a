import { parsePhoneNumberFromString } from 'libphonenumber-js';

/**
 * The number in the one form that two can be compared by (ITU-T E.164), or null for a text that is not written with
 * its country code: which country was meant is not guessed.
 *
 * @example e164('+45 20 12 34 56') // '+4520123456'
 */
export function e164(phone: string | null): string | null {
  const number = phone?.trim().startsWith('+') === true ? parsePhoneNumberFromString(phone) : undefined;
  return number?.isPossible() === true ? number.number : null;
}
