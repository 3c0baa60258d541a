import type { Question } from './question.js';

export interface Section {
  readonly id: string;
  readonly title: string;
  readonly intro?: string;
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
  /**
   * The question whether anything is new, of a set that is asked after an earlier one. Answered "no", nothing else is
   * asked and all stands as it was answered before; what was left open then stays open.
   */
  readonly gate?: string;
}

/** A section with its questions, before it becomes part of a set. */
export interface SectionOf extends Omit<Section, 'questions'> {
  readonly questions: readonly Question[];
}

/** A set of these sections. */
export function setOf(
  head: Pick<QuestionSet, 'id' | 'version' | 'title' | 'gate'>,
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

/** Whether the set goes beyond its gate: it has none, or something is new or may be. */
export const isOpen = (
  { gate }: Pick<QuestionSet, 'gate'>,
  given: Readonly<Record<string, unknown>>,
): boolean => gate === undefined || given[gate] === 'yes' || given[gate] === 'unknown';
