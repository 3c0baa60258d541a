import { findQuestionSet } from '@studio/clinical-flags';

export interface GivenAnswer {
  readonly id: string;
  readonly text: string;
  readonly answer: string;
  readonly inWords: string;
}

/** Answers beside the questions as they were asked, in their order. */
export function givenAnswers(screening: {
  questionSetId: string;
  questionSetVersion: string;
  answers: Readonly<Record<string, unknown>>;
}): GivenAnswer[] {
  const { questionSetId, questionSetVersion, answers } = screening;
  const questions = findQuestionSet(questionSetId, questionSetVersion)?.questions ?? [];
  return questions.flatMap(({ id, text }) => {
    if (answers[id] === undefined) return [];
    const answer = String(answers[id]);
    return [{ id, text, answer, inWords: words[answer] ?? answer }];
  });
}

const words: Readonly<Record<string, string>> = { yes: 'Yes', no: 'No', unknown: 'Does not know' };
