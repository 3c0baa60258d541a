export type FitMathErrorCode =
  | 'input.not-readable'
  | 'input.not-a-number'
  | 'input.out-of-range'
  | 'leg.cannot-reach'
  | 'target.not-reachable';

/**
 * The only error this library throws: an input that is no number or outside what it can be, or a geometry that
 * cannot exist. It names the field and what is allowed, so that a caller can show it beside the input.
 */
export class FitMathError extends Error {
  override readonly name = 'FitMathError';

  constructor(
    readonly code: FitMathErrorCode,
    /** The input's name, dotted for nested inputs, such as `leg.thighMm`. */
    readonly field: string,
    /** What would have been accepted, in words. */
    readonly allowed: string,
  ) {
    super(`${field}: ${allowed}`);
  }
}
