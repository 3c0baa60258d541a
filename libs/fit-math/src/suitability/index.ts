export {
  rearwardCleatRules,
  suitabilityQuestions,
  type Evidence,
  type SuitabilityQuestion,
  type SuitabilityRule,
} from './rearward-cleat-rules.js';
export {
  rearwardCleatSuitability,
  type Suitability,
  type SuitabilityAnswers,
  type SuitabilityFinding,
} from './rearward-cleat-suitability.js';
