import { siteOf } from './body-sites.js';
import { answers as yesNoUnknown, takesDontKnow, type Answers, type Question } from './question.js';
import type { QuestionSet } from './question-set.js';

export interface AnswerProblem {
  /** The question's key as it was handed in. */
  readonly question: string;
  readonly message: string;
}

/** Every problem of the answers, by question; none means they can be judged. A question left out is no problem. */
export function checkAnswers(set: QuestionSet, given: Answers): AnswerProblem[] {
  return Object.entries(given).flatMap(([key, answer]) => {
    const question = questionOf(set, key);
    const message = question ? problemOf(question, answer) : `is no question of ${set.id} ${set.version}`;
    return message === null ? [] : [{ question: key, message }];
  });
}

/** The question that is answered under a key: `id`, or `id@site` when it is asked for each body site. */
export function questionOf(set: QuestionSet, key: string): Question | undefined {
  const [id, siteId, ...more] = key.split('@');
  const question = set.questions.find((candidate) => candidate.id === id);
  const fits = question?.perSite ? siteId !== undefined && siteOf(siteId) && more.length === 0 : key === id;
  return fits ? question : undefined;
}

/** What is wrong with one answer, or null. */
export function problemOf(question: Question, answer: unknown): string | null {
  if (answer === 'unknown' && takesDontKnow(question)) return null;
  switch (question.kind) {
    case 'yes_no': {
      const allowed = yesNoUnknown.filter((value) => value !== 'unknown' || takesDontKnow(question));
      return allowed.some((value) => value === answer) ? null : `must be one of ${allowed.join(', ')}`;
    }
    case 'number':
      return numberProblem(question, answer);
    case 'one_of':
      return question.options.some(({ id }) => id === answer)
        ? null
        : `must be one of ${ids(question.options)}`;
    case 'several_of':
      return listProblem(question.options, answer);
    case 'body_sites':
      return listProblem(question.sites, answer);
    case 'date':
      return isCalendarDay(answer) ? null : 'must be a day, YYYY-MM-DD';
    case 'text':
      return typeof answer === 'string' && answer.length <= question.maxLength
        ? null
        : `must be text of at most ${question.maxLength} characters`;
  }
}

function numberProblem(
  { min, max, unit, decimals }: Extract<Question, { kind: 'number' }>,
  answer: unknown,
): string | null {
  const isNumber =
    typeof answer === 'number' && (decimals ? Number.isFinite(answer) : Number.isInteger(answer));
  return isNumber && answer >= min && answer <= max
    ? null
    : `must be a ${decimals ? '' : 'whole '}number from ${min} to ${max} (${unit})`;
}

function listProblem(options: readonly { readonly id: string }[], answer: unknown): string | null {
  if (!Array.isArray(answer)) return `must be a list of ${ids(options)}`;
  const chosen = answer as readonly unknown[];
  if (new Set(chosen).size !== chosen.length) return 'names something twice';
  return chosen.every((value) => options.some(({ id }) => id === value))
    ? null
    : `must be a list of ${ids(options)}`;
}

const ids = (options: readonly { readonly id: string }[]): string => options.map(({ id }) => id).join(', ');

function isCalendarDay(answer: unknown): boolean {
  if (typeof answer !== 'string' || !/^\d{4}-\d\d-\d\d$/.test(answer)) return false;
  const day = new Date(`${answer}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(answer);
}
