export { agreementPlot } from './agreement-plot.js';
export { answerFunnel, type FunnelStage } from './answer-funnel.js';
export { changeDistribution } from './change-distribution.js';
export { courseOverTime, type CoursePanel } from './course-over-time.js';
export type { Drawing, Table } from './drawing.js';
export { measureForest, type ForestRow } from './measure-forest.js';
export { pairedSlopes, type SlopePair, type Verdict } from './paired-slopes.js';
export {
  feetFromBelow,
  type CleatPlace,
  type FeetWords,
  type FootFromBelow,
} from './position/feet-from-below.js';
export { kneeCurve, type KneeTurn, type KneeWords } from './position/knee-curve.js';
export { sideView, type SidePoint, type SidePosture, type SideViewWords } from './position/side-view.js';
