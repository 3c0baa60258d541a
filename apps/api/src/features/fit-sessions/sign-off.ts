import canonicalize from 'canonicalize';
import { createHash } from 'node:crypto';
import type { FitSessionResponse } from './fit-sessions.dto.js';

/** What the plans of a session still lack before it can be signed; empty when nothing. */
export function missingChoices(session: FitSessionResponse): string[] {
  return (['left', 'right'] as const)
    .filter((side) => session.cleatPlans.findLast((plan) => plan.side === side)?.chosenWay === null)
    .map((side) => `cleat_plan_choice_${side}`);
}

/** SHA-256, hexadecimal, over what the signature covers, in canonical JSON (RFC 8785). */
export function hashOfContent(session: FitSessionResponse): string {
  const { signedAt, contentHash, amendments, followUps, ...content } = session;
  return createHash('sha256')
    .update(canonicalize(content) as string)
    .digest('hex');
}
