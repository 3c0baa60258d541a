import { checkAnswers, evaluate, factsFrom, findQuestionSet, type Evaluation } from '@studio/clinical-flags';
import type { ScreeningOccasion } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { AnswersInvalid, UnknownQuestionSet } from './screenings.errors.js';
import { insertScreening } from './screenings.queries.js';

/**
 * Judge answers by the rules in force and keep both.
 *
 * @throws UnknownQuestionSet, AnswersInvalid; nothing is kept then
 */
export async function screen(
  tx: EntityManager,
  given: {
    studioId: string;
    clientId: string;
    occasion: ScreeningOccasion;
    questionSetId: string;
    questionSetVersion: string;
    answers: Record<string, unknown>;
    takenBy: string | null;
  },
): Promise<{ id: string; evaluation: Evaluation }> {
  const set = findQuestionSet(given.questionSetId, given.questionSetVersion);
  if (!set) throw new UnknownQuestionSet();
  const problems = checkAnswers(set, given.answers);
  if (problems.length > 0) throw new AnswersInvalid(problems);
  const evaluation = evaluate(factsFrom(set, given.answers));
  return { id: await insertScreening(tx, { ...given, evaluation }), evaluation };
}
