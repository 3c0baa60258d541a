import { problemOf, takesDontKnow, type AskedQuestion } from '@studio/clinical-flags';
import { isRequired } from './form-pages.js';

export type Form = Readonly<Record<string, unknown>>;

export interface FieldError {
  readonly key: string;
  readonly message: string;
}

export interface FormRead {
  /** What can be kept; undefined takes an answer back. */
  readonly answers: Readonly<Record<string, unknown>>;
  readonly errors: readonly FieldError[];
}

/** The box that says "none of these"; a list that is empty looks like a question passed over. */
export const noneValue = '-none';
export const unknownValue = 'unknown';
/** Beside a field that is typed into: the box that says "don't know". */
export const unknownBox = (key: string): string => `${key}.unknown`;

/** Every answer of the questions shown, as sent by a form; a wrong one does not keep the others from being saved. */
export function readForm(questions: readonly AskedQuestion[], form: Form): FormRead {
  const answers: Record<string, unknown> = {};
  const errors: FieldError[] = [];
  for (const question of questions) {
    const read = readAnswer(question, form);
    if ('message' in read) errors.push({ key: question.key, message: read.message });
    else answers[question.key] = read.answer;
  }
  return { answers, errors };
}

function readAnswer(question: AskedQuestion, form: Form): { answer: unknown } | { message: string } {
  const sent = textsOf(form[question.key]).map((text) => text.trim());
  const dontKnow =
    takesDontKnow(question) &&
    (sent.includes(unknownValue) || textsOf(form[unknownBox(question.key)]).length > 0);
  const said = sent.filter((text) => text !== '' && text !== unknownValue);
  if (dontKnow && said.length > 0) return { message: `Give an answer or choose “I don’t know”, not both` };
  if (dontKnow) return { answer: unknownValue };
  if (said.length === 0) {
    return isRequired(question) ? { message: nothingSaid[question.kind] } : { answer: undefined };
  }
  const answer = answerOf(question, said);
  if (Array.isArray(answer) && said.includes(noneValue) && answer.length > 0) {
    return { message: 'Choose “None of these” or what applies, not both' };
  }
  return problemOf(question, answer) === null ? { answer } : { message: wrong(question) };
}

/** The answer as it stands in the form, right or wrong: to be shown again beside what is wrong with it. */
export function asSent(question: AskedQuestion, form: Form): unknown {
  const sent = textsOf(form[question.key]);
  if (textsOf(form[unknownBox(question.key)]).length > 0 && sent.join('') === '') return unknownValue;
  const isList = question.kind === 'several_of' || question.kind === 'body_sites';
  return isList && sent.length > 0 ? sent.filter((text) => text !== noneValue) : sent[0];
}

function answerOf(question: AskedQuestion, said: readonly string[]): unknown {
  const [first = ''] = said;
  switch (question.kind) {
    case 'several_of':
    case 'body_sites':
      return said.filter((text) => text !== noneValue);
    case 'number':
      // Many write the decimal comma.
      return /^-?\d+([.,]\d+)?$/.test(first) ? Number(first.replace(',', '.')) : first;
    case 'yes_no':
    case 'one_of':
    case 'date':
    case 'text':
      return first;
  }
}

const nothingSaid: Readonly<Record<AskedQuestion['kind'], string>> = {
  yes_no: 'Choose an answer',
  one_of: 'Choose an answer',
  several_of: 'Choose what applies, or “None of these”',
  body_sites: 'Choose where, or “Nowhere”',
  number: 'Enter a number, or choose “I don’t know”',
  date: 'Enter a day, or choose “I don’t know”',
  text: 'Write an answer, or choose “I don’t know”',
};

function wrong(question: AskedQuestion): string {
  switch (question.kind) {
    case 'number':
      return `Enter a ${question.decimals ? '' : 'whole '}number from ${question.min} to ${question.max}`;
    case 'date':
      return 'Enter a day that the calendar has';
    case 'text':
      return `Write at most ${question.maxLength} characters`;
    case 'yes_no':
    case 'one_of':
    case 'several_of':
    case 'body_sites':
      return 'Choose from what is offered';
  }
}

const textsOf = (sent: unknown): string[] => {
  if (typeof sent === 'string') return [sent];
  return Array.isArray(sent) ? sent.filter((item) => typeof item === 'string') : [];
};
