import { judge, type Condition, type Truth } from '../condition.js';
import type { Answers, Question } from './question.js';

export interface Section {
  readonly id: string;
  readonly title: string;
  readonly intro?: string;
  /** Only asked when this holds by the answers before it. What a closed section would ask stands as it was before. */
  readonly opensWhen?: Condition;
  /** Ids, in the order they are asked. */
  readonly questions: readonly string[];
}

/** What is asked on one occasion: plain data, to be sent, stored and drawn as pages. A published version never changes. */
export interface QuestionSet {
  readonly id: string;
  readonly version: string;
  readonly title: string;
  readonly questions: readonly Question[];
  /** Pages or parts of a page; together they name every question once. */
  readonly sections: readonly Section[];
  /** `what_is_new`: asked after an earlier set; what it does not ask stands as it was answered then. */
  readonly scope: 'whole' | 'what_is_new';
}

/** A section with its questions, before it becomes part of a set. */
export interface SectionOf extends Omit<Section, 'questions'> {
  readonly questions: readonly Question[];
}

/** A set of these sections. */
export function setOf(
  head: Pick<QuestionSet, 'id' | 'version' | 'title' | 'scope'>,
  sections: readonly SectionOf[],
): QuestionSet {
  return {
    ...head,
    questions: sections.flatMap(({ questions }) => questions),
    sections: sections.map(({ questions, ...section }) => ({
      ...section,
      questions: questions.map(({ id }) => id),
    })),
  };
}

/** Whether the section a question belongs to is open, closed, or depends on what is not answered yet. */
export function sectionOpen({ sections }: QuestionSet, questionId: string, given: Answers): Truth {
  const opensWhen = sections.find(({ questions }) => questions.includes(questionId))?.opensWhen;
  return opensWhen ? judge(opensWhen, given, 'yes').truth : 'true';
}
