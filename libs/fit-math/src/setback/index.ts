export { effectiveSeatAngle, saddlePlace, type SaddlePlace } from './effective-seat-angle.js';
export {
  kneeLandmarks,
  kneeOverSpindle,
  usualKneeOverSpindleErrors,
  type KneeLandmarkId,
  type KneeOverSpindleErrors,
  type KneeOverSpindleInput,
} from './knee-over-spindle.js';
export {
  checkRacingSaddle,
  racingSaddleRule,
  type RacingSaddleCheck,
  type RacingSaddleInput,
  type RuleResult,
} from './racing-rule.js';
export {
  swapSaddle,
  usualTapeErrorMm,
  widthPointSetback,
  type SaddleShape,
  type SaddleSwap,
} from './saddle-shape.js';
