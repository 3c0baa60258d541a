export { summariseChanges, type ChangeSummary } from './change-summary.js';
export { pairedEstimate, type Estimate } from './estimate.js';
export { fewestForVerdict, type Finding, type Interval } from './finding.js';
export { judgeChange, type ChangeVerdict } from './judge-change.js';
export { meanInterval } from './mean-interval.js';
export {
  outcomeMeasures,
  type OutcomeMeasure,
  type OutcomeMeasureId,
  type Threshold,
} from './outcome-measures.js';
export type { Pair } from './pair.js';
export { pairedMeanChange, type PairedMeanChange } from './paired-mean-change.js';
export { tTest, type TTest } from './t-test.js';
