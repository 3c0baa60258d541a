/** A caution travels with a result as data: a stable code and a sentence to show. */
export interface Caution {
  readonly code: string;
  readonly text: string;
}
