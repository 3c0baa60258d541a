import { code as findCode } from 'currency-codes';

/** Codes of the list whose minor unit is "N.A.": metals, bond units, units of account, tests. Nothing is priced in them. */
const withoutMinorUnit = new Set('XAG XAU XBA XBB XBC XBD XDR XPD XPT XSU XTS XUA XXX'.split(' '));

/**
 * How many decimals a currency's minor unit is away from its major one: 2 for EUR, 0 for JPY, 3 for KWD.
 *
 * @returns 0 to 4, or null for a text that is no currency prices can be given in
 * @source ISO 4217, list one
 * @example minorUnitDigits('KWD') // 3
 */
export function minorUnitDigits(currency: string): number | null {
  if (!/^[A-Z]{3}$/.test(currency) || withoutMinorUnit.has(currency)) return null;
  return findCode(currency)?.digits ?? null;
}
