import { Injectable } from '@nestjs/common';
import {
  recordAudit,
  studioClock,
  TenantTransaction,
  type FollowUp,
  type TenantContext,
} from '@studio/database';
import { timeSince } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import { requireConsent } from '../clients/index.js';
import {
  firstStep,
  questionsOf,
  relevantAnswers,
  reviewPage,
  savePage,
  stillMissing,
  urgentPage,
  type Answering,
  type Form,
  type Outcome,
} from '../intake-pages/index.js';
import { askedOf, asksForRide } from './asked-of.js';
import { saveDraft } from './follow-ups.queries.js';
import { handIn, judge } from './hand-in.js';
import { rideRows } from './ride-page.js';
import { findRide } from './rides.queries.js';
import { tokenOf, usable } from './usable-link.js';

/** One request by a link: the follow-up, locked, its questions, and whom to name in the audit log. */
interface Visit extends Answering {
  readonly tx: EntityManager;
  readonly ctx: TenantContext;
  readonly followUp: FollowUp;
  readonly timeZone: string;
}

@Injectable()
export class FollowUpPagesService {
  constructor(private readonly transaction: TenantTransaction) {}

  start(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, ({ studio, set, answers, followUp, timeZone }) => ({
      page: 'start',
      studio,
      title: set.title,
      about: `Your bike was fitted ${timeSince(followUp.daysAfter)} ago. ${studio} asks how it goes; it takes a few minutes.`,
      needsConsent: false,
      begun: Object.keys(answers).length > 0,
      openUntil: new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone }).format(
        followUp.linkExpiresAt as Date,
      ),
      error: null,
    }));
  }

  begin(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, (visit) => ({ goTo: firstStep(visit) }));
  }

  questions(link: string, pageId: string, isChange: boolean, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, (visit) => questionsOf(visit, pageId, isChange));
  }

  save(link: string, pageId: string, form: Form, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, async (visit) => {
      await requireHealthConsent(visit);
      return savePage(visit, pageId, form);
    });
  }

  urgent(link: string, pageId: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, (visit) => urgentPage(visit, pageId));
  }

  review(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, async (visit) => {
      const shown = await reviewPage(visit);
      if (!('sections' in shown) || !asksForRide(visit.set)) return shown;
      const { studioId, id: followUpId } = visit.followUp;
      const rows = rideRows(await findRide(visit.tx, { studioId, followUpId }));
      return {
        ...shown,
        sections: [...shown.sections, { heading: 'A ride recording', change: 'ride', rows }],
      };
    });
  }

  submit(link: string, requestId: string): Promise<Outcome> {
    return this.visit(link, requestId, async (visit) => {
      const { tx, ctx, followUp, set, answers, studio } = visit;
      await requireHealthConsent(visit);
      const incomplete = stillMissing(visit);
      if (incomplete !== null) return { goTo: incomplete };
      const handedIn = await handIn(tx, ctx, followUp, relevantAnswers(set, answers));
      return {
        page: 'done',
        studio,
        ...handedIn,
        whatNext:
          'The people who fit you read them in the next days. If there is something to talk about, the studio calls you.',
      };
    });
  }

  private visit(
    link: string,
    requestId: string,
    work: (visit: Visit) => Outcome | Promise<Outcome>,
  ): Promise<Outcome> {
    const token = tokenOf(link);
    const { studioId } = token;
    return this.transaction.run(token, async (tx) => {
      const followUp = await usable(tx, token);
      const ctx: TenantContext = { studioId, userId: null, roles: [], requestId };
      return work(await visitOf(tx, ctx, followUp));
    });
  }
}

/** It was taken back just now: nothing more is kept. */
const requireHealthConsent = ({ tx, followUp: { studioId, clientId } }: Visit): Promise<void> =>
  requireConsent(tx, { studioId, clientId }, 'health_data');

async function visitOf(tx: EntityManager, ctx: TenantContext, followUp: FollowUp): Promise<Visit> {
  const { studioId } = ctx;
  const { id, draft: answers, urgentRules } = followUp;
  const { name: studio, timeZone } = await studioClock(tx, studioId);
  const { set } = await askedOf(tx, followUp);
  return {
    ...{ tx, ctx, followUp, timeZone, studio, set, answers, urgentRules },
    save: async ({ page, ...saved }) => {
      await saveDraft(tx, { studioId, id }, saved);
      await recordAudit(tx, ctx, { action: 'follow-ups.save', recordId: id, fields: [page] });
    },
    judge: async (given) => (await judge(tx, ctx, followUp, given)).evaluation,
    noteRead: (page) =>
      recordAudit(tx, ctx, {
        action: 'follow-ups.read',
        recordId: id,
        ...(page !== undefined && { fields: [page] }),
      }),
  };
}
