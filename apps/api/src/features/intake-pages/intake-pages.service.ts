import { Injectable } from '@nestjs/common';
import {
  evaluate,
  factsFrom,
  findQuestionSet,
  relevantQuestions,
  type Finding,
  type QuestionSet,
} from '@studio/clinical-flags';
import {
  recordAudit,
  studioClock,
  TenantTransaction,
  type IntakeLink,
  type TenantContext,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { consentGivenByLink, consentStands, requireConsent } from '../clients/index.js';
import { isUrgent } from '../referrals/index.js';
import { answerInWords, screen } from '../screenings/index.js';
import {
  firstIncomplete,
  formPages,
  isAnswered,
  missing,
  relevantAnswers,
  type FormPage,
} from './form-pages.js';
import * as queries from './intake-links.queries.js';
import { asSent, readForm, type Form } from './read-form.js';
import type { Outcome, Shown, ShownField } from './shown.js';
import { tokenOf, usableLink } from './usable-link.js';

/** Of the words on the first page that a client agrees to; raised when they change. */
const consentTextVersion = 'intake-page-1';

type Answers = Readonly<Record<string, unknown>>;

/** One request by a link: its row, its questions, and whom to name in the audit log. */
interface Visit {
  readonly tx: EntityManager;
  readonly ctx: TenantContext;
  readonly intake: IntakeLink;
  readonly set: QuestionSet;
  readonly studio: string;
}

@Injectable()
export class IntakePagesService {
  constructor(private readonly transaction: TenantTransaction) {}

  start(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, (visit) => startPage(visit, null));
  }

  begin(link: string, form: Form, requestId: string): Promise<Outcome> {
    return this.change(link, requestId, async (visit) => {
      const { tx, ctx, intake, set } = visit;
      const { clientId, answers } = intake;
      const key = { studioId: ctx.studioId, clientId };
      if (!(await consentStands(tx, key, 'health_data'))) {
        if (form['consent'] !== 'yes') {
          return startPage(visit, 'Tick the box if you agree; without it we must not keep your answers');
        }
        await consentGivenByLink(tx, ctx, { ...key, kind: 'health_data', textVersion: consentTextVersion });
      }
      const [first] = formPages(set, answers);
      const isNew = Object.keys(answers).length === 0;
      return { goTo: isNew && first ? addressOf(first) : onwards(set, answers) };
    });
  }

  questions(link: string, pageId: string, isChange: boolean, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, async (visit) => {
      const { tx, ctx, intake, set } = visit;
      const page = formPages(set, intake.answers).find(({ id }) => id === pageId);
      if (!page) return { goTo: onwards(set, intake.answers) };
      const shown = toBeShown(page, intake.answers, isChange);
      if (shown.some((question) => isAnswered(intake.answers, question))) {
        await recordAudit(tx, ctx, { action: 'intake-links.read', recordId: intake.id, fields: [page.id] });
      }
      const fields = shown.map((question) => ({
        question,
        answer: intake.answers[question.key],
        error: null,
      }));
      return questionsPage(visit, page, fields, isChange);
    });
  }

  /** What can be kept of a page is kept, whatever is wrong with the rest of it. */
  save(link: string, pageId: string, form: Form, requestId: string): Promise<Outcome> {
    return this.change(link, requestId, async (visit) => {
      const { tx, ctx, intake, set } = visit;
      const { studioId } = ctx;
      await requireConsent(tx, { studioId, clientId: intake.clientId }, 'health_data');
      const page = formPages(set, intake.answers).find(({ id }) => id === pageId);
      if (!page) return { goTo: onwards(set, intake.answers) };

      const asked = [form['asked']].flat();
      const shown = page.questions.filter(({ key }) => asked.includes(key));
      const read = readForm(shown, form);
      const answers = Object.fromEntries(
        Object.entries({ ...intake.answers, ...read.answers }).filter(([, answer]) => answer !== undefined),
      );
      // What an answer beside it made needless need not be answered.
      const relevant = relevantQuestions(set, answers).map(({ key }) => key);
      const errors = read.errors.filter(({ key }) => relevant.includes(key));
      const urgent = urgentFindings(set, answers).map(({ ruleId }) => ruleId);
      const isNewlyUrgent = urgent.some((ruleId) => !intake.urgentRules.includes(ruleId));
      // Kept and told at once: the client may never come to hand the answers in.
      if (isNewlyUrgent) await keepScreening(visit, answers);
      const urgentRules = [...new Set([...intake.urgentRules, ...urgent])];
      await queries.saveAnswers(tx, { studioId, id: intake.id }, { answers, urgentRules });
      await recordAudit(tx, ctx, { action: 'intake-links.save', recordId: intake.id, fields: [page.id] });

      const isChange = form['change'] !== undefined;
      if (isNewlyUrgent) return { goTo: `urgent/${encodeURIComponent(page.id)}` };
      if (errors.length > 0) {
        const fields = shown.map((question) => ({
          question,
          answer: asSent(question, form),
          error: errors.find(({ key }) => key === question.key)?.message ?? null,
        }));
        return questionsPage(visit, page, fields, isChange);
      }
      return { goTo: isChange ? onwards(set, answers) : after(set, answers, page.id) };
    });
  }

  urgent(link: string, pageId: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, ({ intake, set, studio }) => {
      const findings = urgentFindings(set, intake.answers);
      const next = after(set, intake.answers, pageId);
      if (findings.length === 0) return { goTo: next };
      return {
        page: 'urgent',
        studio,
        isEmergency: findings.some(({ route }) => route === 'emergency_now'),
        advice: adviceOf(findings),
        back: `pages/${encodeURIComponent(pageId)}?change=1`,
        next,
      };
    });
  }

  review(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, async ({ tx, ctx, intake, set, studio }) => {
      const { answers } = intake;
      const incomplete = firstIncomplete(set, answers);
      if (incomplete) return { goTo: addressOf(incomplete) };
      await recordAudit(tx, ctx, { action: 'intake-links.read', recordId: intake.id });
      return {
        page: 'review',
        studio,
        title: set.title,
        sections: formPages(set, answers).map((page) => ({
          id: page.id,
          heading: headingOf(page),
          rows: page.questions.map((question) => ({
            question: question.text,
            answer: isAnswered(answers, question)
              ? answerInWords(question, answers[question.key])
              : 'Not answered',
          })),
        })),
      };
    });
  }

  submit(link: string, requestId: string): Promise<Outcome> {
    return this.change(link, requestId, async (visit) => {
      const { tx, ctx, intake, set, studio } = visit;
      const { studioId } = ctx;
      await requireConsent(tx, { studioId, clientId: intake.clientId }, 'health_data');
      const incomplete = firstIncomplete(set, intake.answers);
      if (incomplete) return { goTo: addressOf(incomplete) };
      const { id, evaluation } = await keepScreening(visit, intake.answers);
      await queries.markSubmitted(tx, { studioId, id: intake.id }, id);
      await recordAudit(tx, ctx, { action: 'intake-links.submit', recordId: intake.id });
      const raised = evaluation.findings.filter(({ result }) => result === 'raised');
      return {
        page: 'done',
        studio,
        isUrgent: raised.some(({ route }) => isUrgent(route)),
        advice: adviceOf(raised),
        caution: evaluation.caution,
      };
    });
  }

  private visit(
    link: string,
    requestId: string,
    work: (visit: Visit) => Outcome | Promise<Outcome>,
    lock = false,
  ): Promise<Outcome> {
    const token = tokenOf(link);
    const { studioId } = token;
    return this.transaction.run(token, async (tx) => {
      const intake = await usableLink(tx, token, { lock });
      const set = findQuestionSet(intake.questionSetId, intake.questionSetVersion);
      if (!set) throw new TypeError('the link names a question set that is gone');
      const ctx: TenantContext = { studioId, userId: null, roles: [], requestId };
      return work({ tx, ctx, intake, set, studio: (await studioClock(tx, studioId)).name });
    });
  }

  private change(
    link: string,
    requestId: string,
    work: (visit: Visit) => Promise<Outcome>,
  ): Promise<Outcome> {
    return this.visit(link, requestId, work, true);
  }
}

async function startPage({ tx, ctx, intake, set, studio }: Visit, error: string | null): Promise<Shown> {
  const { studioId } = ctx;
  const { timeZone } = await studioClock(tx, studioId);
  const needsConsent = !(await consentStands(tx, { studioId, clientId: intake.clientId }, 'health_data'));
  return {
    page: 'start',
    studio,
    title: set.title,
    needsConsent,
    begun: Object.keys(intake.answers).length > 0,
    openUntil: new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone }).format(intake.expiresAt),
    error,
  };
}

function questionsPage(
  { intake, set, studio }: Visit,
  page: FormPage,
  fields: readonly ShownField[],
  isChange: boolean,
): Shown {
  const pages = formPages(set, intake.answers);
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
function onwards(set: QuestionSet, answers: Answers): string {
  const incomplete = firstIncomplete(set, answers);
  return incomplete ? addressOf(incomplete) : 'review';
}

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

const adviceOf = (findings: readonly Finding[]): string[] => [
  ...new Set(findings.map(({ messageForClient }) => messageForClient)),
];

function keepScreening({ tx, ctx, intake, set }: Visit, answers: Answers): ReturnType<typeof screen> {
  return screen(tx, ctx, {
    clientId: intake.clientId,
    occasion: 'intake',
    questionSetId: set.id,
    questionSetVersion: set.version,
    answers: relevantAnswers(set, answers),
  });
}
