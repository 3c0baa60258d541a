import type { FactId, Facts, YesNo } from '../facts.js';

/** One question; its id is the fact it settles. */
export interface Question {
  readonly id: FactId;
  readonly text: string;
  /** Only asked when these were all answered yes or don't know. */
  readonly onlyAfter?: readonly FactId[];
}

export interface QuestionSet {
  readonly id: string;
  readonly version: string;
  readonly title: string;
  readonly questions: readonly Question[];
}

export const answers = ['yes', 'no', 'unknown'] as const;

export interface AnswerProblem {
  readonly question: string;
  readonly message: string;
}

/** Every problem of the answers, by question; none means they can be judged. */
export function checkAnswers(set: QuestionSet, given: Readonly<Record<string, unknown>>): AnswerProblem[] {
  return Object.entries(given).flatMap(([question, answer]) => {
    if (!set.questions.some(({ id }) => id === question)) {
      return [{ question, message: `is no question of ${set.id} ${set.version}` }];
    }
    return answers.includes(answer as YesNo)
      ? []
      : [{ question, message: `must be one of ${answers.join(', ')}` }];
  });
}

/**
 * The facts the answers settle. A question that an earlier "no" made needless counts as "no"; one that was not
 * answered settles nothing.
 *
 * @param given answers that `checkAnswers` found no problem with
 */
export function factsFrom(set: QuestionSet, given: Readonly<Record<string, unknown>>): Facts {
  const facts: Partial<Record<FactId, YesNo>> = {};
  for (const { id, onlyAfter = [] } of set.questions) {
    const needless = onlyAfter.some((earlier) => facts[earlier] === 'no');
    const answer = (given[id] as YesNo | undefined) ?? (needless ? 'no' : undefined);
    if (answer !== undefined) facts[id] = answer;
  }
  return facts;
}
