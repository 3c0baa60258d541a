import {
  findQuestionSet,
  questionOf,
  relevantQuestions,
  siteOf,
  type Option,
  type Question,
  type QuestionSet,
} from '@studio/clinical-flags';

export interface AnsweredScreening {
  readonly questionSetId: string;
  readonly questionSetVersion: string;
  readonly answers: Readonly<Record<string, unknown>>;
}

export interface GivenAnswer {
  /** The question's id, or `id@site`. */
  readonly key: string;
  readonly text: string;
  readonly answer: unknown;
  readonly inWords: string;
}

export function answersOfScreening({
  questionSetId,
  questionSetVersion,
  answers,
}: AnsweredScreening): GivenAnswer[] {
  const set = findQuestionSet(questionSetId, questionSetVersion);
  return set ? givenAnswers(set, answers) : [];
}

/** Answers beside the questions as they were asked, in their order; last, those to questions that became needless. */
export function givenAnswers(set: QuestionSet, answers: AnsweredScreening['answers']): GivenAnswer[] {
  const asked = relevantQuestions(set, answers).map(({ key }) => key);
  return [...new Set([...asked, ...Object.keys(answers)])].flatMap((key) => {
    const question = questionOf(set, key);
    const answer = answers[key];
    if (!question || answer === undefined) return [];
    return [{ key, text: questionText(question, key), answer, inWords: answerInWords(question, answer) }];
  });
}

/** The question, and of which body site when it is asked for each. */
export function questionText({ text }: Pick<Question, 'text'>, key: string): string {
  const site = siteOf(key.split('@')[1] ?? '');
  return site ? `${site.label}: ${text}` : text;
}

export function optionsOf(question: Question): readonly Option[] {
  switch (question.kind) {
    case 'one_of':
    case 'several_of':
      return question.options;
    case 'body_sites':
      return question.sites;
    case 'yes_no':
    case 'number':
    case 'date':
    case 'text':
      return [];
  }
}

const yesNoWords: Readonly<Record<string, string>> = { yes: 'Yes', no: 'No' };

export function answerInWords(question: Question, answer: unknown): string {
  if (answer === 'unknown') return 'Does not know';
  const labelOf = (id: unknown): string =>
    optionsOf(question).find((option) => option.id === id)?.label ?? String(id);
  switch (question.kind) {
    case 'yes_no':
      return yesNoWords[String(answer)] ?? String(answer);
    case 'number':
      return `${String(answer)} ${question.unit}`;
    case 'one_of':
      return labelOf(answer);
    case 'several_of':
    case 'body_sites': {
      const chosen = Array.isArray(answer) ? answer.map(labelOf) : [];
      if (chosen.length > 0) return chosen.join('; ');
      return question.kind === 'body_sites' ? 'Nowhere' : 'None of these';
    }
    case 'date':
    case 'text':
      return String(answer);
  }
}
