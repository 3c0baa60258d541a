export { approximateSignedRankP, type SignedRankP } from './approximate-signed-rank-p.js';
export { summariseChanges, type ChangeSummary } from './change-summary.js';
export { equivalence, type Equivalence } from './equivalence.js';
export { pairedEstimate, type Estimate } from './estimate.js';
export { fewestForVerdict, type Finding, type Interval } from './finding.js';
export { groupDifference } from './group-difference.js';
export { hodgesLehmann, type MedianChange } from './hodges-lehmann.js';
export { holm, type CorrectedQuestion, type CorrectedQuestions, type Question } from './holm.js';
export { jointIntervalLevel } from './joint-interval-level.js';
export { judgeChange, neededChange, type ChangeVerdict } from './judge-change.js';
export { limitsOfAgreement, type LimitsOfAgreement } from './limits-of-agreement.js';
export { meanInterval } from './mean-interval.js';
export {
  missingAnswersSensitivity,
  type MissingAnswersSensitivity,
  type Unanswered,
} from './missing-answers-sensitivity.js';
export { nonInferiority, type NonInferiority } from './non-inferiority.js';
export { nonInferiorityOfShare } from './non-inferiority-of-share.js';
export { noncentralTQuantile } from './noncentral-t.js';
export {
  outcomeMeasures,
  type OutcomeMeasure,
  type OutcomeMeasureId,
  type Threshold,
} from './outcome-measures.js';
export type { Pair } from './pair.js';
export { pairedMeanChange, type PairedMeanChange } from './paired-mean-change.js';
export { repeatability, type Repeatability } from './repeatability.js';
export { responders, type Responders, type ShareOfGroup } from './responders.js';
export { signedRanks, type SignedRanks } from './signed-ranks.js';
export { tTest, type TTest } from './t-test.js';
export { typicalError, type TypicalError } from './typical-error.js';
export { wilcoxonSignedRank, type SignedRankTest } from './wilcoxon-signed-rank.js';
export { wilsonInterval } from './wilson-interval.js';
