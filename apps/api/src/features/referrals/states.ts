import type { ReferralState } from '@studio/database';

/**
 * What may follow what. A clinician may answer although the studio knows nothing of a hand-over (the client went by
 * themselves), and a clearance is an answer too; a clearance that was too narrow, or ran out, is followed by another.
 * To end a case lifts nothing: what its findings bar stays barred.
 */
export const following: Readonly<Record<ReferralState, readonly ReferralState[]>> = {
  opened: ['handed_over', 'answered', 'cleared', 'ended'],
  handed_over: ['acknowledged', 'answered', 'cleared', 'ended'],
  acknowledged: ['answered', 'cleared', 'ended'],
  answered: ['cleared', 'ended'],
  cleared: ['cleared'],
  ended: [],
};

/** The client has not been seen yet, as far as the studio knows. */
export const waiting: readonly ReferralState[] = ['opened', 'handed_over', 'acknowledged'];

export const isClosed = (state: ReferralState): boolean => state === 'cleared' || state === 'ended';
