export { requirePlan } from './find-plan.js';
export {
  moveFollowUpsWith,
  reconsiderFollowUps,
  rescheduleFollowUps,
  scheduleFollowUps,
} from './schedule-follow-ups.js';
