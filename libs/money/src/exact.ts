/** Half a unit is rounded away from zero: as EN 16931 has its amounts rounded, and as a till receipt shows. */
export function roundedQuotient(dividend: bigint, divisor: bigint): bigint {
  const half = dividend < 0n ? -divisor : divisor;
  return (2n * dividend + half) / (2n * divisor);
}

/** Decimal text as a whole number of thousandths; the caller has checked its form. */
export function thousandths(decimal: string): bigint {
  const [units = '0', decimals = ''] = decimal.split('.');
  return BigInt(units) * 1000n + BigInt(decimals.padEnd(3, '0'));
}

/** @throws RangeError for what is no safe whole number of minor units */
export function minorUnits(name: string, amount: number): bigint {
  if (!Number.isSafeInteger(amount)) throw new RangeError(`${name} must be a safe whole number`);
  return BigInt(amount);
}

/** @throws RangeError for an amount a number cannot hold exactly */
export function safeNumber(amount: bigint): number {
  const number = Number(amount);
  if (!Number.isSafeInteger(number)) throw new RangeError('the amount is too large to be exact');
  return number;
}
