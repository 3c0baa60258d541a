import { Injectable } from '@nestjs/common';
import type { Route } from '@studio/clinical-flags';
import {
  announce,
  recordAudit,
  studioClock,
  TenantTransaction,
  type Referral,
  type ReferralState,
  type TenantContext,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { found, InvalidRequest } from '../../http/problem.js';
import { requireKnownClient } from '../clients/index.js';
import { clearFindings, type ClearRequest } from '../screenings/index.js';
import { closeCaseTask } from './case-task.js';
import { letterPdf } from './letter-pdf.js';
import { writeLetter, type Letter } from './letter.js';
import {
  LetterResponse,
  toReferral,
  toSummary,
  type AcknowledgeRequest,
  type EndReferralRequest,
  type HandOverRequest,
  type RecordAnswerRequest,
  type ReferralResponse,
  type ReferralSummaryResponse,
} from './referrals.dto.js';
import { StepImpossible } from './referrals.errors.js';
import * as queries from './referrals.queries.js';
import { promiseReminder, takeBackReminder } from './remind-of-deadline.js';
import { following, isClosed, waiting } from './states.js';

type Fields = Omit<Parameters<typeof queries.updateReferral>[2], 'state'>;

@Injectable()
export class ReferralsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext, clientId: string): Promise<ReferralSummaryResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      const { now } = await studioClock(tx, studioId);
      return (await queries.listReferrals(tx, { studioId, clientId })).map((row) => toSummary(row, now));
    });
  }

  async get(ctx: TenantContext, id: string): Promise<ReferralResponse> {
    return this.transaction.run(ctx, (tx) => read(tx, ctx, id));
  }

  async letter(ctx: TenantContext, id: string): Promise<LetterResponse> {
    return LetterResponse.of(await this.writtenLetter(ctx, id));
  }

  async letterPdf(ctx: TenantContext, id: string): Promise<Buffer> {
    return letterPdf(await this.writtenLetter(ctx, id));
  }

  async handOver(ctx: TenantContext, id: string, request: HandOverRequest): Promise<ReferralResponse> {
    return this.step(ctx, id, 'handed_over', async (tx, referral) => {
      const { now } = await studioClock(tx, ctx.studioId);
      const handedOverAt = request.at === undefined ? now : new Date(request.at);
      if (handedOverAt > now) {
        throw new InvalidRequest([{ field: 'at', message: 'must not lie in the future' }]);
      }
      await promiseReminder(tx, referral);
      return { handedOverAt, handedOverHow: request.how, letter: await compose(tx, referral) };
    });
  }

  async acknowledge(ctx: TenantContext, id: string, request: AcknowledgeRequest): Promise<ReferralResponse> {
    return this.step(ctx, id, 'acknowledged', async (tx) => ({
      acknowledgedAt: (await studioClock(tx, ctx.studioId)).now,
      acknowledgedHow: request.how,
    }));
  }

  async recordAnswer(
    ctx: TenantContext,
    id: string,
    request: RecordAnswerRequest,
  ): Promise<ReferralResponse> {
    const { answer, answeredOn, clinician, registration } = request;
    return this.step(ctx, id, 'answered', () => ({
      answer,
      answeredOn,
      answeringClinician: clinician,
      answeringRegistration: registration,
    }));
  }

  async clear(ctx: TenantContext, id: string, request: ClearRequest): Promise<ReferralResponse> {
    return this.step(ctx, id, 'cleared', async (tx, { clientId, screeningId }) => {
      const { studioId } = ctx;
      const findings = await queries.listCaseFindings(tx, { studioId, referralId: id });
      const findingIds = findings.map((finding) => finding.id);
      await clearFindings(tx, ctx, { clientId, screeningId, findingIds }, request);
      return { clearedAt: (await studioClock(tx, studioId)).now };
    });
  }

  async end(ctx: TenantContext, id: string, request: EndReferralRequest): Promise<ReferralResponse> {
    return this.step(ctx, id, 'ended', async (tx) => ({
      endedAt: (await studioClock(tx, ctx.studioId)).now,
      endReason: request.reason,
    }));
  }

  /** As it was handed over; before that, as it would be now. */
  private async writtenLetter(ctx: TenantContext, id: string): Promise<Letter> {
    return this.transaction.run(ctx, async (tx) => {
      const referral = found(await queries.findReferral(tx, { studioId: ctx.studioId, id }));
      return (referral.letter as Letter | null) ?? (await compose(tx, referral));
    });
  }

  /** One step of the case: refused when it cannot follow; what it writes is decided with the row locked. */
  private async step(
    ctx: TenantContext,
    id: string,
    to: ReferralState,
    fieldsOf: (tx: EntityManager, referral: Referral) => Fields | Promise<Fields>,
  ): Promise<ReferralResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const referral = found(await queries.findReferralForUpdate(tx, key));
      if (!following[referral.state].includes(to)) throw new StepImpossible(referral.state);
      const fields = await fieldsOf(tx, referral);
      await queries.updateReferral(tx, key, { ...fields, state: to });
      if (!waiting.includes(to)) {
        const of = { studioId: ctx.studioId, referralId: id };
        await closeCaseTask(tx, of);
        await takeBackReminder(tx, of);
      }
      await recordAudit(tx, ctx, {
        action: `referrals.${to.replace('_', '-')}`,
        recordId: id,
        fields: Object.keys(fields),
      });
      if (isClosed(to) && !isClosed(referral.state)) {
        await announce(tx, { studioId: ctx.studioId, type: 'referral.closed', subjectId: id });
      }
      return read(tx, ctx, id);
    });
  }
}

async function read(tx: EntityManager, ctx: TenantContext, id: string): Promise<ReferralResponse> {
  const { studioId } = ctx;
  const of = { studioId, referralId: id };
  return toReferral(found(await queries.findReferral(tx, { studioId, id })), {
    findings: await queries.listCaseFindings(tx, of),
    clearances: await queries.listCaseClearances(tx, of),
    now: (await studioClock(tx, studioId)).now,
  });
}

async function compose(tx: EntityManager, referral: Referral): Promise<Letter> {
  const { studioId, id: referralId, clientId } = referral;
  return writeLetter({
    referralId,
    route: referral.route as Route,
    addressed: await queries.getAddressed(tx, { studioId, clientId }),
    findings: await queries.listCaseFindings(tx, { studioId, referralId }),
    now: (await studioClock(tx, studioId)).now,
  });
}
