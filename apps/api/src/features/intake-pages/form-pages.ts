import {
  relevantQuestions,
  takesDontKnow,
  type Answers,
  type AskedQuestion,
  type BodySite,
  type QuestionSet,
  type Section,
} from '@studio/clinical-flags';

/** What is asked at once: a section, or of a section that is asked for each body site what concerns one of them. */
export interface FormPage {
  /** Its name in addresses: the section's id, or `section@site`. */
  readonly id: string;
  readonly section: Section;
  readonly site: BodySite | null;
  readonly questions: readonly AskedQuestion[];
}

/** The link's first page asks for it, and keeps it as a consent; nothing is answered before. */
const askedAtTheStart = 'consent';

/** The pages that the answers so far make relevant, in order; none is empty. */
export function formPages(set: QuestionSet, answers: Answers): FormPage[] {
  const relevant = relevantQuestions(set, answers);
  const sections = set.sections.filter(({ id }) => id !== askedAtTheStart);
  return sections.flatMap((section) => {
    const own = relevant.filter(({ id }) => section.questions.includes(id));
    const sites = [...new Set(own.map(({ site }) => site))];
    return sites.map((site) => ({
      id: site === null ? section.id : `${section.id}@${site.id}`,
      section,
      site,
      questions: own.filter((question) => question.site === site),
    }));
  });
}

/** Every question of health wants an answer, if only "don't know"; the others may be passed over. */
export const isRequired = takesDontKnow;

export const isAnswered = (answers: Answers, { key }: AskedQuestion): boolean => answers[key] !== undefined;

export const missing = (page: FormPage, answers: Answers): AskedQuestion[] =>
  page.questions.filter((question) => isRequired(question) && !isAnswered(answers, question));

/** The first page on which an answer is missing; null when all can be handed in. */
export const firstIncomplete = (set: QuestionSet, answers: Answers): FormPage | null =>
  formPages(set, answers).find((page) => missing(page, answers).length > 0) ?? null;

/** Only what is asked by the answers as they are: one that became needless is not handed in. */
export function relevantAnswers(set: QuestionSet, answers: Answers): Record<string, unknown> {
  return Object.fromEntries(
    relevantQuestions(set, answers).flatMap(({ key }) =>
      answers[key] === undefined ? [] : [[key, answers[key]]],
    ),
  );
}
