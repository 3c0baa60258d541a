import { findQuestionSet, questionSetsInUse } from '@studio/clinical-flags';
import type { AnsweredScreening } from './given-answers.js';
import { QuestionSetSuperseded } from './screenings.errors.js';

/** @throws QuestionSetSuperseded; a set that is none at all is left to whoever looks it up */
export function requireInUse({
  questionSetId,
  questionSetVersion,
}: Pick<AnsweredScreening, 'questionSetId' | 'questionSetVersion'>): void {
  const inUse = questionSetsInUse.find(({ id }) => id === questionSetId);
  const known = findQuestionSet(questionSetId, questionSetVersion);
  if (inUse && known && inUse.version !== questionSetVersion) throw new QuestionSetSuperseded(inUse.version);
}
