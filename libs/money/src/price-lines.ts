import { distribute } from './distribute.js';
import { minorUnits, roundedQuotient, safeNumber, thousandths } from './exact.js';
import { rateInThousandths, taxed, type Taxed } from './tax.js';

/** A count or measure with at most three decimals, like `1`, `2.5` or `0.125`; never 0. */
export const quantityForm = /^(?!0+(?:\.0+)?$)\d{1,4}(?:\.\d{1,3})?$/;

/** Percent of an amount, or an amount: one of the two. */
export type Discount = { readonly percent: string } | { readonly amountMinor: number };

export interface LineToPrice {
  /** Decimal text of `quantityForm`. */
  readonly quantity: string;
  readonly unitPriceMinor: number;
  readonly discount: Discount | null;
  /** Lines of one class and rate are taxed as one sum. */
  readonly taxClass: string;
  readonly taxRatePercent: string;
}

export interface PricedLine extends Taxed {
  /** Quantity times unit price. */
  readonly fullMinor: number;
  /** Taken off by the line's own discount, and its share of the discount on the whole. */
  readonly discountMinor: number;
  /** What is left: the gross where prices hold the tax, otherwise the net. */
  readonly amountMinor: number;
}

export interface TaxTotal extends Taxed {
  readonly taxClass: string;
  readonly taxRatePercent: string;
}

export interface PricedLines extends Taxed {
  readonly lines: readonly PricedLine[];
  /** One for each class and rate, in the order they first appear. */
  readonly taxes: readonly TaxTotal[];
}

export class DiscountTooLarge extends RangeError {
  constructor(
    /** Index of the line; null for the discount on the whole. */
    readonly line: number | null,
  ) {
    super('a discount must not be more than what it is taken from');
  }
}

/**
 * Price a quote or receipt. Quantity times unit price is rounded to the minor unit for each line; a percentage is
 * rounded once; the discount on the whole is shared among the lines in proportion to what they come to. Tax is worked
 * out once for each class and rate, on the sum of its lines (EN 16931-1: BR-CO-17, with BR-CO-10, -13, -14 and -15 for
 * the sums), and then shared among these lines, so that both the lines and the rates add up to the whole.
 *
 * @throws DiscountTooLarge
 * @throws RangeError for a text or number of another form, or a sum too large to be exact
 */
export function priceLines(options: {
  readonly taxIncluded: boolean;
  readonly lines: readonly LineToPrice[];
  readonly discount: Discount | null;
}): PricedLines {
  const { taxIncluded, discount } = options;
  const lines = options.lines.map((line, index) => {
    const fullMinor = fullAmount(line);
    const discountMinor = discountOn(fullMinor, line.discount, index);
    return { ...line, fullMinor, discountMinor, amountMinor: fullMinor - discountMinor, taxMinor: 0 };
  });
  const amounts = lines.map(({ amountMinor }) => amountMinor);
  const shares = distribute(discountOn(sum(amounts), discount, null), amounts);
  for (const [index, line] of lines.entries()) {
    line.discountMinor += shares[index] as number;
    line.amountMinor -= shares[index] as number;
  }
  const taxes = [...grouped(lines, ({ taxClass, taxRatePercent }) => `${taxClass} ${taxRatePercent}`)].map(
    (members): TaxTotal => {
      const weights = members.map(({ amountMinor }) => amountMinor);
      const { taxClass, taxRatePercent } = members[0];
      const total = taxed({ amountMinor: sum(weights), taxRatePercent, taxIncluded });
      const parts = distribute(total.taxMinor, weights);
      for (const [index, line] of members.entries()) line.taxMinor = parts[index] as number;
      return { taxClass, taxRatePercent, ...total };
    },
  );
  return {
    lines: lines.map(({ fullMinor, discountMinor, amountMinor, taxMinor }) => ({
      ...{ fullMinor, discountMinor, amountMinor },
      ...withTax(amountMinor, taxMinor, taxIncluded),
    })),
    taxes,
    netMinor: sum(taxes.map(({ netMinor }) => netMinor)),
    taxMinor: sum(taxes.map(({ taxMinor }) => taxMinor)),
    grossMinor: sum(taxes.map(({ grossMinor }) => grossMinor)),
  };
}

/** An amount with a tax that is already known. */
export function withTax(amountMinor: number, taxMinor: number, taxIncluded: boolean): Taxed {
  const netMinor = taxIncluded ? amountMinor - taxMinor : amountMinor;
  return { netMinor, taxMinor, grossMinor: netMinor + taxMinor };
}

/**
 * The tax of a part of a line that is credited. Each part takes what the tax of all parts so far comes to less what
 * they took before, so that a line credited in any number of parts gives back its tax exactly.
 *
 * @param line what the line came to, and its tax
 * @param before credited so far, in the same kind of amount
 * @throws RangeError when the parts are more than the line
 */
export function taxOfPart(
  line: { readonly amountMinor: number; readonly taxMinor: number },
  before: number,
  part: number,
): number {
  if (part < 0 || before < 0 || before + part > line.amountMinor) {
    throw new RangeError('the parts must not be more than the line');
  }
  if (line.amountMinor === 0) return 0;
  const upTo = (amount: number) =>
    safeNumber(roundedQuotient(BigInt(line.taxMinor) * BigInt(amount), BigInt(line.amountMinor)));
  return upTo(before + part) - upTo(before);
}

function fullAmount({ quantity, unitPriceMinor }: LineToPrice): number {
  if (!quantityForm.test(quantity)) throw new RangeError(`${quantity} is no quantity`);
  return safeNumber(
    roundedQuotient(thousandths(quantity) * minorUnits('unitPriceMinor', unitPriceMinor), 1000n),
  );
}

function discountOn(amountMinor: number, discount: Discount | null, line: number | null): number {
  if (discount === null) return 0;
  if ('percent' in discount) {
    return safeNumber(roundedQuotient(BigInt(amountMinor) * rateInThousandths(discount.percent), 100_000n));
  }
  const amount = safeNumber(minorUnits('discount', discount.amountMinor));
  if (amount > amountMinor) throw new DiscountTooLarge(line);
  return amount;
}

function grouped<T>(items: readonly T[], keyOf: (item: T) => string): Iterable<[T, ...T[]]> {
  const groups = new Map<string, [T, ...T[]]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups.values();
}

const sum = (amounts: readonly number[]): number =>
  safeNumber(amounts.reduce((total, amount) => total + BigInt(amount), 0n));
