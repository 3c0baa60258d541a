import type { FitSessionResponse } from './fit-sessions.dto.js';

/** What the plans of a session still lack before it can be signed; empty when nothing. */
export function missingChoices(session: FitSessionResponse): string[] {
  return (['left', 'right'] as const)
    .filter((side) => session.cleatPlans.findLast((plan) => plan.side === side)?.chosenWay === null)
    .map((side) => `cleat_plan_choice_${side}`);
}
