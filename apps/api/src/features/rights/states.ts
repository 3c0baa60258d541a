import type { RightsRequestState } from '@studio/database';

/**
 * What may follow what. Nothing is handed out or erased before it is known who asks; a refusal needs no more than a
 * reason. An erasure is under way until the worker has carried out what need not be kept.
 */
export const following: Readonly<Record<RightsRequestState, readonly RightsRequestState[]>> = {
  received: ['identity_checked', 'refused'],
  identity_checked: ['under_way', 'done', 'refused'],
  under_way: ['done'],
  done: [],
  refused: [],
};
