import type { OfferState, WishState } from '@studio/database';

/** What may be done with a wish: in which states, and which state comes of it (null: it stays). */
export const wishActions = {
  change: { from: ['waiting', 'unanswered'], to: null },
  withdraw: { from: ['waiting', 'offered', 'unanswered', 'run_out'], to: 'withdrawn' },
  /** Somebody has asked the client: they still wait. */
  resume: { from: ['unanswered', 'run_out', 'withdrawn'], to: 'waiting' },
} as const satisfies Record<string, { readonly from: readonly WishState[]; readonly to: WishState | null }>;

export type WishAction = keyof typeof wishActions;
export const wishActionNames = Object.keys(wishActions) as WishAction[];

export const wishActionsIn = (state: WishState): WishAction[] =>
  wishActionNames.filter((name) => (wishActions[name].from as readonly WishState[]).includes(state));

export const offerActionNames = ['accept', 'decline'] as const;
export type OfferAction = (typeof offerActionNames)[number];

/** An offer is answered once, while it is open. */
export const offerActionsIn = (state: OfferState): OfferAction[] =>
  state === 'open' ? [...offerActionNames] : [];
