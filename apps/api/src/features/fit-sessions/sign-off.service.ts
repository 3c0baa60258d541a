import { Injectable } from '@nestjs/common';
import {
  announce,
  readClock,
  recordAudit,
  signRecord,
  TenantTransaction,
  type TenantContext,
} from '@studio/database';
import { planByCleatChange } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import { found, StaleVersion } from '../../http/problem.js';
import { requirePlan, rescheduleFollowUps, scheduleFollowUps } from '../follow-ups/index.js';
import { followFirstRide } from '../shoe-work/index.js';
import { adviceOf, cleatChangesMm } from './advice.js';
import type { FitSessionResponse } from './fit-sessions.dto.js';
import { SessionIncomplete, SessionNotSigned } from './fit-sessions.errors.js';
import { findFitSession } from './fit-sessions.queries.js';
import { missingForSignOff } from './missing.js';
import type {
  AdviceRequest,
  AdviceResponse,
  AmendmentRequest,
  SignSessionRequest,
  BeforeSigningResponse,
} from './sign-off.dto.js';
import * as queries from './sign-off.queries.js';
import { whileOpen } from './while-open.js';

@Injectable()
export class SignOffService {
  constructor(private readonly transaction: TenantTransaction) {}

  async get(ctx: TenantContext, id: string): Promise<BeforeSigningResponse> {
    return this.transaction.read(ctx, async (sql) => {
      const session = found(await findFitSession(sql, { studioId: ctx.studioId, id }));
      const { id: planId, version, name } = planByCleatChange(cleatChangesMm(session));
      return {
        missing: session.signedAt === null ? await missingForSignOff(sql, ctx, session) : [],
        advice: await adviceOf(sql, ctx, session),
        followUpPlan: { id: planId, version, name },
      };
    });
  }

  async getAdvice(ctx: TenantContext, id: string): Promise<AdviceResponse> {
    return this.transaction.read(ctx, async (sql) =>
      adviceOf(sql, ctx, found(await findFitSession(sql, { studioId: ctx.studioId, id }))),
    );
  }

  /** @throws StaleVersion, SessionSigned */
  async putAdvice(
    ctx: TenantContext,
    id: string,
    version: number,
    { items }: AdviceRequest,
  ): Promise<AdviceResponse> {
    const { studioId } = ctx;
    const writtenBy = ctx.userId as string;
    return whileOpen(this.transaction, ctx, id, async (tx) => {
      const session = found(await findFitSession(tx, { studioId, id }));
      const standing = await adviceOf(tx, ctx, session);
      if (standing.version !== version) throw new StaleVersion();
      if (session.advice) {
        await queries.updateAdvice(tx, { studioId, fitSessionId: id, version }, { items, writtenBy });
      } else {
        await keepAdvice(tx, ctx, id, { ...standing, items, writtenBy, version: version + 1 });
      }
      await recordAudit(tx, ctx, { action: 'fit-sessions.advise', recordId: id });
      return found(found(await findFitSession(tx, { studioId, id })).advice);
    });
  }

  async sign(
    ctx: TenantContext,
    id: string,
    { followUpPlanId }: SignSessionRequest,
  ): Promise<FitSessionResponse> {
    const { studioId } = ctx;
    const key = { studioId, id };
    return whileOpen(this.transaction, ctx, id, async (tx) => {
      const session = found(await findFitSession(tx, key));
      const missing = await missingForSignOff(tx, ctx, session);
      if (missing.length > 0) throw new SessionIncomplete(missing.map(({ what }) => what));
      if (followUpPlanId !== undefined) await requirePlan(tx, studioId, followUpPlanId, 'followUpPlanId');
      // What the rider is told belongs to what is signed.
      if (!session.advice) await keepAdvice(tx, ctx, id, await adviceOf(tx, ctx, session));
      const signedAt = await readClock(tx);
      const signedBy = ctx.userId as string;
      const { contentHash } = await signRecord(tx, {
        ...{ studioId, fitSessionId: id, amendmentId: null, signedBy, signedAt },
      });
      await queries.signSession(tx, key, { signedBy, signedAt, contentHash });
      await scheduleFollowUps(tx, ctx, {
        ...{ fitSessionId: id, clientId: session.clientId, sessionAt: signedAt },
        ...(followUpPlanId !== undefined && { planId: followUpPlanId }),
      });
      await followFirstRide(tx, ctx, { fitSessionId: id });
      await recordAudit(tx, ctx, { action: 'fit-sessions.sign', recordId: id });
      await announce(tx, { studioId, type: 'fit_session.signed', subjectId: id });
      return found(await findFitSession(tx, key));
    });
  }

  async amend(ctx: TenantContext, id: string, request: AmendmentRequest): Promise<FitSessionResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.runOnce(ctx, async (tx) => {
      const session = found(await findFitSession(tx, key));
      if (session.signedAt === null) throw new SessionNotSigned();
      const { studioId } = ctx;
      const signedBy = ctx.userId as string;
      const amendmentId = await queries.insertAmendment(tx, {
        ...{ studioId, fitSessionId: id, text: request.text, writtenBy: signedBy },
      });
      const signedAt = await readClock(tx);
      await signRecord(tx, { studioId, fitSessionId: id, amendmentId, signedBy, signedAt });
      await rescheduleFollowUps(tx, ctx, { fitSessionId: id });
      await recordAudit(tx, ctx, { action: 'fit-sessions.amend', recordId: id });
      return found(await findFitSession(tx, key));
    });
  }
}

const keepAdvice = (
  tx: EntityManager,
  { studioId }: TenantContext,
  fitSessionId: string,
  { items, ...advice }: AdviceResponse,
): Promise<void> => queries.insertAdvice(tx, { studioId, fitSessionId, ...advice, items: [...items] });
