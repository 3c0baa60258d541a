export { consentTexts, newestConsentText, type ConsentLanguage } from './consent-texts.js';
export {
  shoeWorkFeasibility,
  type Feasibility,
  type MissingFact,
  type ShoeWorkFacts,
} from './feasibility.js';
export {
  newestProcedure,
  procedures,
  shoes,
  stepsFor,
  type Hazard,
  type Procedure,
  type Shoe,
  type Step,
  type StepValue,
} from './procedure.js';
export { afterShoeWork } from './rider-cautions.js';
export { following, shoeWorkStates, stageIn, type ShoeWorkState } from './states.js';
export { missingSteps, possibleSteps, reachableStates, type DoneStep } from './steps.js';
export { valueProblems, type ValueProblem } from './values.js';
export { fixings, isBonded, shoeWorkWays, type Fixing, type ShoeWorkWay } from './ways.js';
