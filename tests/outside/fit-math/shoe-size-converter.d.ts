/** The part of the package that is used; it brings no types. */
declare module 'shoe-size-converter' {
  export interface Converted {
    readonly system: string;
    readonly size: number;
    readonly men?: boolean;
    readonly women?: boolean;
    readonly unisex?: boolean;
  }
  export const iso: object;
  export function convert(from: { size: number; system: string }, systems: object): Converted[];
}
