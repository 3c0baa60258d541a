export { ankleMomentRatio } from './ankle-moment-ratio.js';
export { cleatPlan, type CleatOption, type CleatPlan, type CleatPlanInput } from './cleat-plan.js';
export { cleatWays, holePatterns, type CleatWay, type HolePattern, type ShoeFacts } from './hardware.js';
export { midfootFromHeelMm } from './midfoot.js';
export {
  saddleChange,
  saddleChangeForCleat,
  usualErrors,
  type FootAndCrankChange,
  type RiderErrors,
  type RiderOnBike,
} from './saddle-change.js';
