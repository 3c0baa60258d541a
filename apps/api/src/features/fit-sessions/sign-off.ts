import type { FitSessionResponse } from './fit-sessions.dto.js';

/** What a session still lacks before it can be signed; empty when nothing. */
export function missingForSignOff(session: FitSessionResponse): string[] {
  const missing: string[] = [];
  if (session.baseline === null) missing.push('baseline');
  for (const stage of ['found', 'left'] as const) {
    if (!session.positions.some((position) => position.stage === stage)) missing.push(`position_${stage}`);
  }
  for (const side of ['left', 'right'] as const) {
    const plans = session.cleatPlans.filter((plan) => plan.side === side);
    if (plans.length > 0 && plans.at(-1)?.chosenWay === null) missing.push(`cleat_plan_choice_${side}`);
  }
  return missing;
}
