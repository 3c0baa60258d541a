import { riderIntake } from './rider-intake.js';
import type { QuestionSet } from './question-set.js';

/** Asked again at every follow-up: the same questions, so that nothing new is missed. */
export const sinceTheFit = {
  id: 'since-the-fit',
  version: '1',
  title: 'Since your fit',
  questions: riderIntake.questions,
} as const satisfies QuestionSet;
