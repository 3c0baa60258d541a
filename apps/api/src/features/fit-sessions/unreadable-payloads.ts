import { notStorable } from '../../http/storable.js';

const unreadable = { unreadable: true } as const;

/**
 * Puts a mark in the place of each payload that no table can hold, so that its operation keeps its place in the device's
 * count and is refused in its turn, and the others of the batch go on.
 */
export function markUnreadablePayloads(body: unknown): void {
  const { operations } = (body ?? {}) as { operations?: unknown };
  if (!Array.isArray(operations)) return;
  for (const operation of operations as ({ payload?: unknown } | null)[]) {
    if (typeof operation === 'object' && operation !== null && notStorable(operation.payload)) {
      operation.payload = unreadable;
    }
  }
}

export const isMarkedUnreadable = (payload: Readonly<Record<string, unknown>>): boolean =>
  payload['unreadable'] === unreadable.unreadable;
