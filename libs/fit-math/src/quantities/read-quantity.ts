import { FitMathError } from '../errors.js';
import { keptIn, unitRatio, unitsOf, type Quantity, type UnitOf } from './units.js';

/** What people write for a unit besides its symbol; compared in lower case. */
const spellings: Readonly<Record<string, string>> = {
  '"': 'in',
  "''": 'in',
  inch: 'in',
  inches: 'in',
  "'": 'ft',
  foot: 'ft',
  feet: 'ft',
  millimetre: 'mm',
  millimetres: 'mm',
  centimetre: 'cm',
  centimetres: 'cm',
  metre: 'm',
  metres: 'm',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  gram: 'g',
  grams: 'g',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  w: 'W',
  watt: 'W',
  watts: 'W',
  kw: 'kW',
  '°': 'deg',
  degree: 'deg',
  degrees: 'deg',
};

/** A number as typed: `34`, `34.5`, `34,5`, `.5`, `5/8` or `13 5/8`. */
const numberPattern = String.raw`(?:\d+\s+)?\d+\s*/\s*\d+|\d+(?:[.,]\d+)?|[.,]\d+`;
const single = new RegExp(`^([-+]?)\\s*(${numberPattern})\\s*([^\\d\\s.,/][^\\d]*?)?\\s*$`);
const feetAndInches = new RegExp(
  `^([-+]?)\\s*(\\d+)\\s*(?:'|ft|feet|foot)\\s*(${numberPattern})\\s*(?:"|''|in|inch|inches)?\\s*$`,
  'i',
);

/**
 * What somebody typed for a length, mass, power or angle.
 *
 * Read are decimal points and commas, fractions, feet with inches, typographic marks and the usual spellings of a
 * unit. A unit is never assumed: a bare number is read in `unitWhenBare` where the form beside it says so, and refused
 * elsewhere. A separator before exactly three digits (`1,250`) is refused when it is a comma, since it may be either.
 *
 * @param field the input's name, for the error
 * @param unitWhenBare the unit shown beside the input, if one is
 * @returns mm, kg, W or degrees, by the quantity
 * @throws FitMathError `input.not-readable` naming the field: no number, an unknown unit, one of another quantity, or
 *   none at all
 * @source house rule; factors as in `convertQuantity`
 * @check src/quantities/read-quantity: 27 ways of writing; written and read back
 * @tolerance 1e-9
 * @example readQuantity('saddleHeight', '13 5/8"', 'length'); // 346.07…
 * @example readQuantity('mass', '72,5 kg', 'mass'); // 72.5
 */
export function readQuantity<Q extends Quantity>(
  field: string,
  typed: string,
  quantity: Q,
  unitWhenBare?: UnitOf<Q>,
): number {
  const text = plain(typed);
  const imperial = quantity === 'length' ? feetAndInches.exec(text) : null;
  if (imperial) {
    const [, sign, feet = '', inches = ''] = imperial;
    return signed(sign, 304.8 * numberOf(field, feet) + 25.4 * numberOf(field, inches));
  }
  const [, sign, digits = '', written] = single.exec(text) ?? [];
  if (digits === '') throw unreadable(field, quantity, 'a number with its unit');
  const unit = written === undefined ? unitWhenBare : unitOf(written, quantity);
  if (unit === undefined) {
    throw unreadable(
      field,
      quantity,
      written === undefined ? 'a unit after the number' : 'one of these units',
    );
  }
  return signed(sign, numberOf(field, digits) * unitRatio(quantity, unit, keptIn[quantity]));
}

/** Fractions, marks and spaces of typography as one types them. */
function plain(typed: string): string {
  return typed
    .replace(/[′’‘´]/g, "'")
    .replace(/[″”“]/g, '"')
    .replace(/[−–]/g, '-')
    .replace(/[¼½¾⅛⅜⅝⅞]/g, ' $&')
    .normalize('NFKC')
    .replaceAll('⁄', '/')
    .replace(/\s+/g, ' ')
    .trim();
}

function numberOf(field: string, digits: string): number {
  const fraction = /^(?:(\d+) )?(\d+) ?\/ ?(\d+)$/.exec(digits);
  if (fraction) {
    const [, whole = '0', above, below] = fraction;
    const value = Number(whole) + Number(above) / Number(below);
    if (!(value <= 1e6))
      throw new FitMathError('input.not-readable', field, 'a fraction with something below');
    return value;
  }
  if (/,\d{3}$/.test(digits)) {
    throw new FitMathError(
      'input.not-readable',
      field,
      'no comma before three digits: it may mark thousands',
    );
  }
  const value = Number(digits.replace(',', '.'));
  if (value > 1e9) throw new FitMathError('input.not-readable', field, 'a number below a thousand million');
  return value;
}

function unitOf<Q extends Quantity>(written: string, quantity: Q): UnitOf<Q> | undefined {
  const word = written.trim().replace(/\.$/, '');
  const symbol = spellings[word.toLowerCase()] ?? word.toLowerCase();
  return unitsOf[quantity].find((unit) => unit === symbol);
}

const signed = (sign: string | undefined, value: number): number => (sign === '-' ? 0 - value : value);

function unreadable(field: string, quantity: Quantity, wanted: string): FitMathError {
  return new FitMathError('input.not-readable', field, `${wanted}: ${unitsOf[quantity].join(', ')}`);
}
