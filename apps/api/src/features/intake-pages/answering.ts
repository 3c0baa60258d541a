import {
  evaluate,
  factsFrom,
  relevantQuestions,
  type Evaluation,
  type Finding,
  type QuestionSet,
} from '@studio/clinical-flags';
import { isUrgent } from '../referrals/index.js';
import { answerInWords } from '../screenings/index.js';
import {
  firstIncomplete,
  formPages,
  isAnswered,
  missing,
  relevantAnswers,
  type FormPage,
} from './form-pages.js';
import { asSent, readForm, type Form } from './read-form.js';
import type { Outcome, Shown, ShownField } from './shown.js';

type Answers = Readonly<Record<string, unknown>>;

/** Somebody answering a set of questions by a link, page by page: what is kept so far, and how more is kept. */
export interface Answering {
  readonly studio: string;
  readonly set: QuestionSet;
  readonly answers: Answers;
  /** Urgent rules whose advice was shown already, and the studio told of. */
  readonly urgentRules: readonly string[];
  /** Keep a page's answers. */
  save(saved: { page: string; answers: Answers; urgentRules: string[] }): Promise<void>;
  /** Judge the answers by the rules, and keep both. */
  judge(answers: Answers): Promise<Evaluation>;
  /** Write down that answers were read: of one page, or all of them. */
  noteRead(page?: string): Promise<void>;
}

export async function questionsOf(answering: Answering, pageId: string, isChange: boolean): Promise<Outcome> {
  const { set, answers } = answering;
  const page = formPages(set, answers).find(({ id }) => id === pageId);
  if (!page) return { goTo: onwards(set, answers) };
  const shown = toBeShown(page, answers, isChange);
  if (shown.some((question) => isAnswered(answers, question))) await answering.noteRead(page.id);
  const fields = shown.map((question) => ({ question, answer: answers[question.key], error: null }));
  return questionsPage(answering, page, fields, isChange);
}

/** What can be kept of a page is kept, whatever is wrong with the rest of it. */
export async function savePage(answering: Answering, pageId: string, form: Form): Promise<Outcome> {
  const { set } = answering;
  const page = formPages(set, answering.answers).find(({ id }) => id === pageId);
  if (!page) return { goTo: onwards(set, answering.answers) };

  const asked = [form['asked']].flat();
  const shown = page.questions.filter(({ key }) => asked.includes(key));
  const read = readForm(shown, form);
  const answers = Object.fromEntries(
    Object.entries({ ...answering.answers, ...read.answers }).filter(([, answer]) => answer !== undefined),
  );
  // What an answer beside it made needless need not be answered.
  const relevant = relevantQuestions(set, answers).map(({ key }) => key);
  const errors = read.errors.filter(({ key }) => relevant.includes(key));
  const urgent = urgentFindings(set, answers).map(({ ruleId }) => ruleId);
  const isNewlyUrgent = urgent.some((ruleId) => !answering.urgentRules.includes(ruleId));
  // Kept and told at once: the client may never come to hand the answers in.
  if (isNewlyUrgent) await answering.judge(relevantAnswers(set, answers));
  const urgentRules = [...new Set([...answering.urgentRules, ...urgent])];
  await answering.save({ page: page.id, answers, urgentRules });

  const isChange = form['change'] !== undefined;
  if (isNewlyUrgent) return { goTo: `urgent/${encodeURIComponent(page.id)}` };
  if (errors.length > 0) {
    const fields = shown.map((question) => ({
      question,
      answer: asSent(question, form),
      error: errors.find(({ key }) => key === question.key)?.message ?? null,
    }));
    return questionsPage(answering, page, fields, isChange);
  }
  return { goTo: isChange ? onwards(set, answers) : after(set, answers, page.id) };
}

export function urgentPage({ set, answers, studio }: Answering, pageId: string): Outcome {
  const findings = urgentFindings(set, answers);
  const next = after(set, answers, pageId);
  if (findings.length === 0) return { goTo: next };
  return {
    page: 'urgent',
    studio,
    isEmergency: findings.some(({ route }) => route === 'emergency_now'),
    advice: adviceOf(findings),
    back: `pages/${encodeURIComponent(pageId)}?change=1`,
    next,
  };
}

export async function reviewPage(answering: Answering): Promise<Outcome> {
  const { set, answers, studio } = answering;
  const incomplete = firstIncomplete(set, answers);
  if (incomplete) return { goTo: addressOf(incomplete) };
  await answering.noteRead();
  return {
    page: 'review',
    studio,
    title: set.title,
    sections: formPages(set, answers).map((page) => ({
      change: `${addressOf(page)}?change=1`,
      heading: headingOf(page),
      rows: page.questions.map((question) => ({
        question: question.text,
        answer: isAnswered(answers, question)
          ? answerInWords(question, answers[question.key])
          : 'Not answered',
      })),
    })),
  };
}

/** Where to begin, or to go on. */
export function firstStep({ set, answers }: Pick<Answering, 'set' | 'answers'>): string {
  const [first] = formPages(set, answers);
  const isNew = Object.keys(answers).length === 0;
  return isNew && first ? addressOf(first) : onwards(set, answers);
}

/** The page to go to while an answer is missing; null when all can be handed in. */
export function stillMissing({ set, answers }: Pick<Answering, 'set' | 'answers'>): string | null {
  const incomplete = firstIncomplete(set, answers);
  return incomplete && addressOf(incomplete);
}

export const adviceOf = (findings: readonly Finding[]): string[] => [
  ...new Set(findings.map(({ messageForClient }) => messageForClient)),
];

function questionsPage(
  { answers, set, studio }: Answering,
  page: FormPage,
  fields: readonly ShownField[],
  isChange: boolean,
): Shown {
  const pages = formPages(set, answers);
  const at = pages.findIndex(({ id }) => id === page.id);
  const before = pages[at - 1];
  return {
    page: 'questions',
    studio,
    title: set.title,
    id: page.id,
    heading: headingOf(page),
    intro: page.section.intro ?? null,
    part: at + 1,
    parts: pages.length,
    fields,
    isMore: fields.length < page.questions.length,
    back: isChange ? null : before ? `${addressOf(before)}?change=1` : null,
    isChange,
  };
}

/** On the way through, a page that came back shows only what is still missing; to change it, all of it. */
function toBeShown(page: FormPage, answers: Answers, isChange: boolean): FormPage['questions'] {
  const open = missing(page, answers);
  const isBegun = page.questions.some((question) => isAnswered(answers, question));
  return !isChange && isBegun && open.length > 0 ? open : page.questions;
}

const headingOf = ({ site, section }: FormPage): string => site?.label ?? section.title;
const addressOf = ({ id }: Pick<FormPage, 'id'>): string => `pages/${encodeURIComponent(id)}`;

/** To the first page that lacks an answer, or else to the review. */
const onwards = (set: QuestionSet, answers: Answers): string => stillMissing({ set, answers }) ?? 'review';

/** To the page again when its own answers ask for more, or else to the one after. */
function after(set: QuestionSet, answers: Answers, pageId: string): string {
  const pages = formPages(set, answers);
  const at = pages.findIndex(({ id }) => id === pageId);
  const now = pages[at];
  if (!now) return onwards(set, answers);
  if (missing(now, answers).length > 0) return addressOf(now);
  const next = pages[at + 1];
  return next ? addressOf(next) : onwards(set, answers);
}

/** What the answers so far raise that cannot wait. */
function urgentFindings(set: QuestionSet, answers: Answers): Finding[] {
  const { findings } = evaluate(factsFrom(set, relevantAnswers(set, answers)));
  return findings.filter(({ result, route }) => result === 'raised' && isUrgent(route));
}
