export {
  moveFollowUpsWith,
  reconsiderFollowUps,
  rescheduleFollowUps,
  scheduleFollowUps,
} from './schedule-follow-ups.js';
