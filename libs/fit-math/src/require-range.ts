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
