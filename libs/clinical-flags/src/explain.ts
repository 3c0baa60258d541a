import type { Evaluation } from './evaluate.js';
import type { Finding } from './finding.js';
import { siteOf, type BodySite } from './questions/body-sites.js';
import { questionOf } from './questions/check-answers.js';
import type { Answers, Question } from './questions/question.js';
import type { QuestionSet } from './questions/question-set.js';
import { relevantQuestions, type AskedQuestion } from './questions/relevant-questions.js';

/** A question and the answer that led to a finding. */
export interface Explanation {
  readonly key: string;
  readonly question: Question;
  readonly site: BodySite | null;
  readonly answer: string | number | readonly string[];
}

/** Which answers led to a finding, beside the questions of the set they were given to. */
export function explain(set: QuestionSet, { because }: Pick<Finding, 'because'>): Explanation[] {
  return because.flatMap(({ fact: key, answer }) => {
    const question = questionOf(set, key);
    return question ? [{ key, question, site: siteOf(key.split('@')[1] ?? '') ?? null, answer }] : [];
  });
}

/**
 * The questions to ask now so that what cannot be told is settled: those of the open facts that the answers make
 * relevant. Ask, judge again, and ask anew until none is left or the client does not know.
 */
export function openQuestions(
  set: QuestionSet,
  given: Answers,
  { openFacts }: Pick<Evaluation, 'openFacts'>,
): AskedQuestion[] {
  return relevantQuestions(set, given).filter(({ key }) => openFacts.some((fact) => fact === key));
}
