import type { PlanStep } from './plan.js';

export interface PlanProblem {
  /** Path within the plan, like `steps.0.window`. */
  readonly field: string;
  readonly message: string;
}

/** What is wrong with the steps of a plan beyond the form of each value; none means it can be followed. */
export function checkSteps(steps: readonly PlanStep[]): PlanProblem[] {
  return steps.flatMap((step, at) => {
    const field = `steps.${at}`;
    const problems: PlanProblem[] = [];
    if (steps.findIndex(({ id }) => id === step.id) !== at)
      problems.push({ field: `${field}.id`, message: 'names another step of the plan' });
    if (step.window.from >= step.window.until)
      problems.push({ field: `${field}.window`, message: 'must open before it closes' });
    return [...problems, ...unansweredProblems(step, `${field}.unanswered`)];
  });
}

const order = { remind: 0, phone: 1, close: 2 } as const;

function unansweredProblems({ unanswered }: PlanStep, field: string): PlanProblem[] {
  const problems: PlanProblem[] = [];
  if (unanswered.at(-1)?.action !== 'close') problems.push({ field, message: 'must end with `close`' });
  const inOrder = unanswered.every(({ action, afterDays }, at) => {
    const before = unanswered[at - 1];
    return !before || (order[before.action] < order[action] && before.afterDays < afterDays);
  });
  if (!inOrder)
    problems.push({
      field,
      message: 'must go from `remind` by `phone` to `close`, each later than the one before',
    });
  return problems;
}
