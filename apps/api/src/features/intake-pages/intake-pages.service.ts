import { Injectable } from '@nestjs/common';
import { findQuestionSet } from '@studio/clinical-flags';
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
import { screen } from '../screenings/index.js';
import {
  adviceOf,
  firstStep,
  questionsOf,
  reviewPage,
  savePage,
  stillMissing,
  urgentPage,
  type Answering,
} from './answering.js';
import { relevantAnswers } from './form-pages.js';
import * as queries from './intake-links.queries.js';
import type { Form } from './read-form.js';
import type { Outcome, Shown } from './shown.js';
import { tokenOf, usableLink } from './usable-link.js';

/** Of the words on the first page that a client agrees to; raised when they change. */
const consentTextVersion = 'intake-page-1';

/** One request by a link: its row, its questions, and whom to name in the audit log. */
interface Visit extends Answering {
  readonly tx: EntityManager;
  readonly ctx: TenantContext;
  readonly intake: IntakeLink;
}

@Injectable()
export class IntakePagesService {
  constructor(private readonly transaction: TenantTransaction) {}

  start(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, (visit) => startPage(visit, null));
  }

  begin(link: string, form: Form, requestId: string): Promise<Outcome> {
    return this.change(link, requestId, async (visit) => {
      const { tx, ctx, intake } = visit;
      const key = { studioId: ctx.studioId, clientId: intake.clientId };
      if (!(await consentStands(tx, key, 'health_data'))) {
        if (form['consent'] !== 'yes') {
          return startPage(visit, 'Tick the box if you agree; without it we must not keep your answers');
        }
        await consentGivenByLink(tx, ctx, { ...key, kind: 'health_data', textVersion: consentTextVersion });
      }
      return { goTo: firstStep(visit) };
    });
  }

  questions(link: string, pageId: string, isChange: boolean, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, (visit) => questionsOf(visit, pageId, isChange));
  }

  save(link: string, pageId: string, form: Form, requestId: string): Promise<Outcome> {
    return this.change(link, requestId, async (visit) => {
      const { tx, ctx, intake } = visit;
      await requireConsent(tx, { studioId: ctx.studioId, clientId: intake.clientId }, 'health_data');
      return savePage(visit, pageId, form);
    });
  }

  urgent(link: string, pageId: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, (visit) => urgentPage(visit, pageId));
  }

  review(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, reviewPage);
  }

  submit(link: string, requestId: string): Promise<Outcome> {
    return this.change(link, requestId, async (visit) => {
      const { tx, ctx, intake, set, studio } = visit;
      const { studioId } = ctx;
      await requireConsent(tx, { studioId, clientId: intake.clientId }, 'health_data');
      const incomplete = stillMissing(visit);
      if (incomplete !== null) return { goTo: incomplete };
      const { id, evaluation } = await keepScreening(visit, relevantAnswers(set, intake.answers));
      await queries.markSubmitted(tx, { studioId, id: intake.id }, id);
      await recordAudit(tx, ctx, { action: 'intake-links.submit', recordId: intake.id });
      const raised = evaluation.findings.filter(({ result }) => result === 'raised');
      return {
        page: 'done',
        studio,
        isUrgent: raised.some(({ route }) => isUrgent(route)),
        advice: adviceOf(raised),
        whatNext:
          'The people who fit you read them before your visit. If there is something to talk about first, the studio calls you.',
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
      const ctx: TenantContext = { studioId, userId: null, roles: [], requestId };
      return work(visitOf(tx, ctx, intake, (await studioClock(tx, studioId)).name));
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

function visitOf(tx: EntityManager, ctx: TenantContext, intake: IntakeLink, studio: string): Visit {
  const { id, answers, urgentRules } = intake;
  const set = findQuestionSet(intake.questionSetId, intake.questionSetVersion);
  if (!set) throw new TypeError('the link names a question set that is gone');
  const visit: Visit = {
    ...{ tx, ctx, intake, studio, set, answers, urgentRules },
    save: async ({ page, ...saved }) => {
      await queries.saveAnswers(tx, { studioId: ctx.studioId, id }, saved);
      await recordAudit(tx, ctx, { action: 'intake-links.save', recordId: id, fields: [page] });
    },
    judge: async (given) => (await keepScreening(visit, given)).evaluation,
    noteRead: (page) =>
      recordAudit(tx, ctx, {
        action: 'intake-links.read',
        recordId: id,
        ...(page !== undefined && { fields: [page] }),
      }),
  };
  return visit;
}

async function startPage({ tx, ctx, intake, set, studio }: Visit, error: string | null): Promise<Shown> {
  const { studioId } = ctx;
  const { timeZone } = await studioClock(tx, studioId);
  const needsConsent = !(await consentStands(tx, { studioId, clientId: intake.clientId }, 'health_data'));
  return {
    page: 'start',
    studio,
    title: set.title,
    about: `${studio} asks you some questions about your riding and your health, so that your fit does you no harm.`,
    needsConsent,
    begun: Object.keys(intake.answers).length > 0,
    openUntil: new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone }).format(intake.expiresAt),
    error,
  };
}

function keepScreening(
  { tx, ctx, intake, set }: Visit,
  answers: Readonly<Record<string, unknown>>,
): ReturnType<typeof screen> {
  return screen(tx, ctx, {
    clientId: intake.clientId,
    occasion: 'intake',
    questionSetId: set.id,
    questionSetVersion: set.version,
    answers,
  });
}
