import type { PlanStep, UnansweredAction } from './plan.js';
import { dueAt } from './times.js';

export const followUpStates = [
  'scheduled',
  'sent',
  'reminded',
  'phoned',
  'answered',
  'unanswered',
  'cancelled',
  'skipped',
] as const;
export type FollowUpState = (typeof followUpStates)[number];

/**
 * What may follow what. `phoned`: somebody was told to call. An answer that comes after all is taken; what was
 * cancelled for want of consent, or skipped, may be scheduled again.
 */
export const following: Readonly<Record<FollowUpState, readonly FollowUpState[]>> = {
  scheduled: ['sent', 'phoned', 'skipped', 'cancelled'],
  sent: ['reminded', 'phoned', 'answered', 'unanswered', 'cancelled'],
  reminded: ['phoned', 'answered', 'unanswered', 'cancelled'],
  phoned: ['answered', 'unanswered', 'cancelled'],
  answered: [],
  unanswered: ['answered'],
  cancelled: ['scheduled'],
  skipped: ['scheduled'],
};

export const mayBecome = (from: FollowUpState, to: FollowUpState): boolean => following[from].includes(to);

/** Asked, and neither answered nor given up. */
export const waitingStates = ['sent', 'reminded', 'phoned'] as const satisfies readonly FollowUpState[];

/** What is done next with a follow-up, and not before when. */
export interface NextAction {
  readonly action: 'ask' | UnansweredAction;
  readonly at: Date;
}

/** Which of the actions a state has behind it. */
const doneBy: Partial<Record<FollowUpState, readonly UnansweredAction[]>> = {
  sent: [],
  reminded: ['remind'],
  phoned: ['remind', 'phone'],
};

/**
 * What its plan says to do next; null when nothing is left to do. Days without an answer count from when the client was
 * asked, and end as the window opens.
 */
export function nextAction(
  followUp: { readonly state: FollowUpState; readonly dueAt: Date; readonly askedAt: Date | null },
  { unanswered, window }: PlanStep,
  timeZone: string,
): NextAction | null {
  const { state, askedAt } = followUp;
  if (state === 'scheduled') return { action: 'ask', at: followUp.dueAt };
  const done = doneBy[state];
  const next = done && unanswered.find(({ action }) => !done.includes(action));
  if (!next || askedAt === null) return null;
  return { action: next.action, at: dueAt(askedAt, { days: next.afterDays }, window, timeZone) };
}
