export { ankleMomentRatio } from './ankle-moment-ratio.js';
export {
  cleatPlaceRules,
  cleatPlaces,
  usualLandmarkErrors,
  type CleatPlace,
  type CleatPlaceRule,
  type FootLandmarks,
} from './cleat-places.js';
export { cleatPlan, type CleatOption, type CleatPlan, type CleatPlanInput } from './cleat-plan.js';
export { cleatRotation, type CleatRotation, type CleatRotationInput } from './cleat-rotation.js';
export { cleatsForBothFeet, type BothFeet, type CleatsForBothFeet } from './cleats-for-both-feet.js';
export { footHardware, type FootHardware } from './foot-hardware.js';
export { cleatWays, holePatterns, type CleatWay, type HolePattern, type ShoeFacts } from './hardware.js';
export { mountedHardware } from './mounted-hardware.js';
export { midfootFromHeelMm } from './midfoot.js';
export {
  saddleChange,
  saddleChangeForCleat,
  usualErrors,
  type FootAndCrankChange,
  type RiderErrors,
  type RiderOnBike,
} from './saddle-change.js';
export {
  stance,
  stanceOptions,
  type FootStance,
  type Stance,
  type StanceInput,
  type StanceOption,
} from './stance.js';
