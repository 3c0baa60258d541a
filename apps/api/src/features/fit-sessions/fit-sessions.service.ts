import { Injectable } from '@nestjs/common';
import {
  announce,
  readClock,
  recordAudit,
  signRecord,
  TenantTransaction,
  type TenantContext,
} from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import { requireClient, requireConsent } from '../clients/index.js';
import { requireInUse } from '../equipment/index.js';
import { rescheduleFollowUps, scheduleFollowUps } from '../follow-ups/index.js';
import { requirePermission } from '../screenings/index.js';
import { followFirstRide } from '../shoe-work/index.js';
import type {
  AmendmentRequest,
  BaselineRequest,
  FitSessionPage,
  FitSessionResponse,
  ListSessionsQuery,
  OpenSessionRequest,
} from './fit-sessions.dto.js';
import { IdTaken, SessionIncomplete, SessionNotSigned } from './fit-sessions.errors.js';
import * as queries from './fit-sessions.queries.js';
import { missingForSignOff } from './missing.js';
import { SessionWrites } from './session-writes.js';
import { whileOpen } from './while-open.js';
import { putBaseline } from './writes/put-baseline.js';

@Injectable()
export class FitSessionsService {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly writes: SessionWrites,
  ) {}

  async open(ctx: TenantContext, request: OpenSessionRequest): Promise<FitSessionResponse> {
    const { studioId } = ctx;
    const { id: ownId, clientId, bikeId, shoeId, appointmentId = null } = request;
    return this.transaction.runOnce(ctx, async (tx) => {
      const opened = ownId === undefined ? null : await queries.findFitSession(tx, { studioId, id: ownId });
      if (opened) return sameOpening(opened, request);
      await requireClient(tx, studioId, clientId);
      await requireConsent(tx, { studioId, clientId }, 'health_data');
      await requireInUse(tx, { studioId, clientId, bikeId, shoeId });
      const screeningId = await requirePermission(tx, { studioId, clientId }, 'riding');
      const fitterId = ctx.userId as string;
      const row = { studioId, clientId, bikeId, shoeId, appointmentId, fitterId, screeningId };
      const id = await queries.insertFitSession(tx, { ...row, ...(ownId !== undefined && { id: ownId }) });
      await recordAudit(tx, ctx, { action: 'fit-sessions.open', recordId: id });
      return found(await queries.findFitSession(tx, { studioId, id }));
    });
  }

  async get(ctx: TenantContext, id: string): Promise<FitSessionResponse> {
    const key = { studioId: ctx.studioId, id };
    return found(await this.transaction.read(ctx, (sql) => queries.findFitSession(sql, key)));
  }

  async list(ctx: TenantContext, query: ListSessionsQuery): Promise<FitSessionPage> {
    const limit = pageSize(query);
    const { clientId, after = null } = query;
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listFitSessions(sql, { studioId: ctx.studioId, clientId, after, limit: limit + 1 }),
    );
    return pageOf(rows, limit);
  }

  async putBaseline(ctx: TenantContext, id: string, request: BaselineRequest): Promise<FitSessionResponse> {
    await this.writes.now(ctx, id, putBaseline, request);
    return this.get(ctx, id);
  }

  async sign(ctx: TenantContext, id: string): Promise<FitSessionResponse> {
    const key = { studioId: ctx.studioId, id };
    return whileOpen(this.transaction, ctx, id, async (tx) => {
      const session = found(await queries.findFitSession(tx, key));
      const missing = await missingForSignOff(tx, ctx, session);
      if (missing.length > 0) throw new SessionIncomplete(missing.map(({ what }) => what));
      const signedAt = await readClock(tx);
      const signedBy = ctx.userId as string;
      const { contentHash } = await signRecord(tx, {
        ...{ studioId: ctx.studioId, fitSessionId: id, amendmentId: null, signedBy, signedAt },
      });
      await queries.signSession(tx, key, { signedBy, signedAt, contentHash });
      await scheduleFollowUps(tx, ctx, { fitSessionId: id, clientId: session.clientId, sessionAt: signedAt });
      await followFirstRide(tx, ctx, { fitSessionId: id });
      await recordAudit(tx, ctx, { action: 'fit-sessions.sign', recordId: id });
      await announce(tx, { studioId: ctx.studioId, type: 'fit_session.signed', subjectId: id });
      return found(await queries.findFitSession(tx, key));
    });
  }

  async amend(ctx: TenantContext, id: string, request: AmendmentRequest): Promise<FitSessionResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.runOnce(ctx, async (tx) => {
      const session = found(await queries.findFitSession(tx, key));
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
      return found(await queries.findFitSession(tx, key));
    });
  }
}

/** An opening that is sent again finds the session it opened. */
function sameOpening(opened: FitSessionResponse, request: OpenSessionRequest): FitSessionResponse {
  const { clientId, bikeId, shoeId, appointmentId = null } = request;
  const same =
    opened.clientId === clientId &&
    opened.bikeId === bikeId &&
    opened.shoeId === shoeId &&
    opened.appointmentId === appointmentId;
  if (!same) throw new IdTaken();
  return opened;
}
