import type { FollowUpPlan, PlanStep, Unanswered } from './plan.js';

// When to ask, and how often, is common practice without a source.

const patient: readonly Unanswered[] = [
  { afterDays: 4, action: 'remind' },
  { afterDays: 9, action: 'phone' },
  { afterDays: 21, action: 'close' },
];

/** An early look is worth nothing once the next is due. */
const brisk: readonly Unanswered[] = [
  { afterDays: 2, action: 'remind' },
  { afterDays: 4, action: 'phone' },
  { afterDays: 8, action: 'close' },
];

const common = {
  window: { from: '09:00', until: '19:00' },
  channel: 'mail',
  tell: 'fitter',
} as const satisfies Partial<PlanStep>;

const outcome = {
  ...common,
  questionSet: { id: 'since-the-fit', version: '3' },
  unanswered: patient,
  countsAsOutcome: true,
} as const satisfies Partial<PlanStep>;

const week2: PlanStep = { ...outcome, id: 'week-2', after: { weeks: 2 } };
const week6: PlanStep = { ...outcome, id: 'week-6', after: { weeks: 6 } };

export const smallChange: FollowUpPlan = {
  id: 'small-change',
  version: 1,
  name: 'Small change',
  steps: [week2, week6],
};

export const largeCleatChange: FollowUpPlan = {
  id: 'large-cleat-change',
  version: 1,
  name: 'Large cleat change',
  steps: [
    {
      ...common,
      id: 'day-3',
      after: { days: 3 },
      questionSet: { id: 'first-days', version: '1' },
      unanswered: brisk,
      countsAsOutcome: false,
    },
    week2,
    week6,
    { ...outcome, id: 'month-6', after: { months: 6 } },
  ],
};

export const shoeWork: FollowUpPlan = {
  id: 'shoe-work',
  version: 1,
  name: 'Shoe work',
  steps: [
    {
      ...common,
      id: 'first-ride',
      after: { days: 2 },
      questionSet: { id: 'first-ride', version: '1' },
      unanswered: brisk,
      countsAsOutcome: false,
    },
  ],
};

export const builtInPlans: readonly FollowUpPlan[] = [smallChange, largeCleatChange, shoeWork];

/** From here on a cleat change is followed closely. House rule: beyond what slots alone allow on most shoes. */
export const largeCleatChangeFromMm = 10;

/**
 * The plan of a fit nobody chose one for.
 *
 * @param cleatChangesMm how far each foot's cleat was moved, either way; empty when not known
 */
export const planByCleatChange = (cleatChangesMm: readonly number[]): FollowUpPlan =>
  cleatChangesMm.some((mm) => Math.abs(mm) >= largeCleatChangeFromMm) ? largeCleatChange : smallChange;
