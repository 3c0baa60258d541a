/** Somebody who works in a studio. */
export interface Person {
  readonly studioId: string;
  readonly userId: string;
}
