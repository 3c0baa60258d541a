export {
  ankleBrachialIndex,
  type AbiBand,
  type AnkleBrachialIndex,
  type RestingPressures,
} from './ankle-brachial-index.js';
export {
  claudicationQuestions,
  type ClaudicationAnswer,
  type WalkingPain,
  type WalkingPainSite,
} from './claudication-questions.js';
export { ClinicianInputInvalid, type ClinicianScore } from './clinician.js';
export { exerciseIndex, type ExerciseIndex, type ExerciseValues } from './exercise-index.js';
export {
  ankleInjuryCriteria,
  kneeInjuryCriteria,
  type AnkleAndFoot,
  type InjuryCriteria,
  type Knee,
} from './injury-criteria.js';
export { neuropathyQuestionnaire, type NeuropathyScore } from './neuropathy-questionnaire.js';
export { twoLevelDvtScore, type DvtFindings, type DvtScore } from './two-level-dvt-score.js';
export { withClinicianScores } from './with-clinician-scores.js';
