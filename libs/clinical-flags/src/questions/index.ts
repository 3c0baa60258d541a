import type { QuestionSet } from './question-set.js';
import { riderIntake } from './rider-intake.js';
import { sinceTheFit } from './since-the-fit.js';

/** Every set and version ever asked; an old one stays for the screenings that used it. */
export const questionSets: readonly QuestionSet[] = [riderIntake, sinceTheFit];

export function findQuestionSet(id: string, version: string): QuestionSet | null {
  return questionSets.find((set) => set.id === id && set.version === version) ?? null;
}

export { riderIntake, sinceTheFit };
export {
  answers,
  checkAnswers,
  factsFrom,
  type AnswerProblem,
  type Question,
  type QuestionSet,
} from './question-set.js';
