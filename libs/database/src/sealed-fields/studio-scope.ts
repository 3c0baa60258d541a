import { AsyncLocalStorage } from 'node:async_hooks';

/** A studio's key, or why there is none: null when none was drawn yet. */
export type KeyAtHand = Buffer | Error | null;

interface StudioScope {
  readonly studioId: string;
  readonly key: KeyAtHand;
}

/**
 * The studio whose fields are sealed and opened, from the begin to the end of its transaction. The one thing that is not
 * passed: TypeORM tells a column's transformer the value and nothing else.
 */
export const studioScope = new AsyncLocalStorage<StudioScope>();

/** There is no key at hand; the transaction is run again once there is one. */
export class NoKeyYet extends Error {
  override readonly name = 'NoKeyYet';

  /** @param toSeal whether one may be drawn: what was sealed is opened by none but its own */
  constructor(readonly toSeal: boolean) {
    super('the studio has no key');
  }
}

export function keyInScope(toSeal: boolean): { studioId: string; key: Buffer } {
  const scope = studioScope.getStore();
  if (scope === undefined) throw new Error('fields are sealed and opened in a transaction of a studio only');
  const { studioId, key } = scope;
  if (key === null) throw new NoKeyYet(toSeal);
  if (key instanceof Error) throw key;
  return { studioId, key };
}
