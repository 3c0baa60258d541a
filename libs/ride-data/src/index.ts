export { RideDataError, type RideDataErrorCode } from './errors.js';
export { usualLimits, type ReadLimits } from './limits.js';
export type { Chunks } from './read/bytes.js';
export { readRide } from './read/read-ride.js';
export type {
  Channels,
  DeviceSummary,
  Gap,
  RideFormat,
  RideNote,
  RideNoteCode,
  RideRecording,
  RideSample,
} from './ride-recording.js';
export { best20Minutes, type Best20Minutes } from './measures/best-20-minutes.js';
export {
  compareOnCourse,
  publishedRunToRunSdM2,
  type CourseComparison,
  type CourseRun,
  type CourseSide,
  type DragComparison,
} from './measures/compare-on-course.js';
export { courseOf, passesOf, type Course, type CoursePass } from './measures/course.js';
export {
  dragAreaNeeds,
  dragAreaOf,
  type Conditions,
  type DragArea,
  type DragAreaReason,
  type KnownConditions,
  type Moment,
  type PedalPowerModel,
} from './measures/drag-area.js';
export { gapPolicies, type GapPolicy } from './measures/gap-policy.js';
export { meanMaximalPower, type MeanMaximalPower } from './measures/mean-maximal-power.js';
export type { Place } from './measures/place.js';
export {
  compareTimeToPeak,
  sprint,
  timeToPeakChangeErrorS,
  timeToPeakErrorS,
  usualOnsetShareOfPeak,
  type Span,
  type Sprint,
  type TimeToPeakVerdict,
} from './measures/sprint.js';
export { steadySpeed, usualLargestVariation, type SteadySpeed } from './measures/steady-speed.js';
