import type { FollowUpState } from './states.js';
import type { FollowUpPlan, PlanStep } from './plan.js';

/** A follow-up as far as a plan may change it. */
export interface Promised {
  readonly id: string;
  readonly stepId: string;
  readonly state: FollowUpState;
  readonly dueAt: Date;
  /** Set by a person, by hand: a plan leaves it alone. */
  readonly byHand: boolean;
}

export interface PlanChanges {
  readonly insert: readonly { readonly step: PlanStep; readonly dueAt: Date }[];
  /** `moves`: it was due at another time. */
  readonly keep: readonly {
    readonly id: string;
    readonly step: PlanStep;
    readonly dueAt: Date;
    readonly moves: boolean;
  }[];
  /** Not in the plan any more. */
  readonly skip: readonly string[];
}

/**
 * What must change so that a session is followed as a plan says. What was already asked, or moved, added or skipped by
 * a person, stays as it is; a step whose time has passed is not made up for.
 *
 * @param promised the follow-ups of the session that came from a plan in this one's place
 */
export function planChanges(
  promised: readonly Promised[],
  plan: Pick<FollowUpPlan, 'steps'>,
  options: { dueAt: (step: PlanStep) => Date; now: Date },
): PlanChanges {
  const open = promised.filter(({ state, byHand }) => state === 'scheduled' && !byHand);
  const wanted = plan.steps.map((step) => ({ step, dueAt: options.dueAt(step) }));
  return {
    insert: wanted.filter(
      ({ step, dueAt }) => dueAt > options.now && !promised.some(({ stepId }) => stepId === step.id),
    ),
    keep: open.flatMap(({ id, stepId, dueAt: was }) => {
      const now = wanted.find(({ step }) => step.id === stepId);
      return now ? [{ id, ...now, moves: now.dueAt.getTime() !== was.getTime() }] : [];
    }),
    skip: open.flatMap(({ id, stepId }) => (wanted.some(({ step }) => step.id === stepId) ? [] : [id])),
  };
}
