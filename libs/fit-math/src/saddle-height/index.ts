export {
  compareSaddleHeights,
  type SaddleHeightComparison,
  type SaddleHeightRow,
} from './compare-saddle-heights.js';
export {
  kneeFlexionTargets,
  kneeReadings,
  readsStraighterInPlaneDeg,
  type KneeFlexionTarget,
  type KneeReading,
} from './knee-flexion-targets.js';
export {
  kneeTargetHeights,
  type KneeTargetHeights,
  type KneeTargetRow,
  type RiderNow,
} from './knee-target-heights.js';
export {
  saddleHeightRules,
  type SaddleHeightInputName,
  type SaddleHeightInputs,
  type SaddleHeightRule,
} from './saddle-height-rules.js';
