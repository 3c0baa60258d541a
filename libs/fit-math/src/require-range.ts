import { FitMathError } from './errors.js';

/**
 * Let a finite number within a closed range through.
 *
 * @throws FitMathError `input.not-a-number` or `input.out-of-range`, naming the field
 */
export function requireRange(field: string, value: number, minimum: number, maximum: number): number {
  if (!Number.isFinite(value)) {
    throw new FitMathError('input.not-a-number', field, `a number from ${minimum} to ${maximum}`);
  }
  if (value < minimum || value > maximum) {
    throw new FitMathError('input.out-of-range', field, `from ${minimum} to ${maximum}`);
  }
  return value;
}

/**
 * Let standard deviations through that are none below zero and none beyond what measuring can miss by.
 *
 * @param greatest in the unit of each
 * @throws FitMathError naming the error, after `field`
 */
export function requireErrors(field: string, errors: object, greatest: number): void {
  for (const [name, error] of Object.entries(errors) as [string, number][]) {
    requireRange(`${field}.${name}`, error, 0, greatest);
  }
}
