import type { QuestionSet } from './question-set.js';
import { riderIntakeV1 } from './rider-intake-v1.js';
import { riderIntakeV2 } from './rider-intake-v2.js';
import { sinceTheFitV1 } from './since-the-fit-v1.js';
import {
  duringTheSessionV1,
  firstDaysV1,
  firstRideV1,
  sessionStartV1,
  sinceTheFitV2,
  sinceTheFitV3,
} from './what-is-new.js';

/** The versions in use. */
export {
  duringTheSessionV1 as duringTheSession,
  riderIntakeV2 as riderIntake,
  sessionStartV1 as sessionStart,
  firstDaysV1 as firstDays,
  firstRideV1 as firstRide,
  sinceTheFitV3 as sinceTheFit,
};

export const questionSetsInUse: readonly QuestionSet[] = [
  riderIntakeV2,
  sessionStartV1,
  duringTheSessionV1,
  sinceTheFitV3,
  firstDaysV1,
  firstRideV1,
];

/** Every set and version ever asked; an old one stays for the screenings that used it. */
export const questionSets: readonly QuestionSet[] = [
  riderIntakeV1,
  sinceTheFitV1,
  sinceTheFitV2,
  ...questionSetsInUse,
];

export function findQuestionSet(id: string, version: string): QuestionSet | null {
  return questionSets.find((set) => set.id === id && set.version === version) ?? null;
}

export { bodySites, siteOf, type BodySite, type BodyView, type Side, type Site } from './body-sites.js';
export { checkAnswers, problemOf, questionOf, type AnswerProblem } from './check-answers.js';
export { activityQuestions } from './sections/since-the-fit.js';
export { factsFrom } from './facts-from.js';
export {
  answers,
  questionKinds,
  takesDontKnow,
  type Answer,
  type Answers,
  type Option,
  type Question,
  type QuestionKind,
} from './question.js';
export { type QuestionSet, type Section } from './question-set.js';
export { relevantQuestions, type AskedQuestion } from './relevant-questions.js';
