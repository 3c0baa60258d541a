export {
  builtInPlans,
  largeCleatChange,
  largeCleatChangeFromMm,
  planByCleatChange,
  shoeWork,
  smallChange,
} from './built-in-plans.js';
export { checkSteps, type PlanProblem } from './check-plan.js';
export { planChanges, type PlanChanges, type Promised } from './plan-changes.js';
export {
  channels,
  toldRoles,
  unansweredActions,
  type Channel,
  type FollowUpPlan,
  type Offset,
  type PlanStep,
  type TimeWindow,
  type ToldRole,
  type Unanswered,
  type UnansweredAction,
} from './plan.js';
export {
  following,
  followUpStates,
  mayBecome,
  nextAction,
  waitingStates,
  type FollowUpState,
  type NextAction,
} from './states.js';
export { daysBetween, dueAt, dueOn, inWindow, timeSince } from './times.js';
