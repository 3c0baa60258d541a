export { scheduleFollowUps } from './schedule-follow-ups.js';
