declare module 'spdx-satisfies' {
  /** Whether licences of the list meet the expression. Throws for what is no SPDX expression. */
  export default function satisfies(expression: string, licences: string[]): boolean;
}
