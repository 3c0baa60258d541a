import { Injectable } from '@nestjs/common';
import { readClock, recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { measurementKind, readMeasurement } from '@studio/fit-math';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, UnknownReference } from '../../http/problem.js';
import { requireClient, requireConsent } from '../clients/index.js';
import { findBike, findShoe } from '../equipment/index.js';
import { rescheduleFollowUps, scheduleFollowUps } from '../follow-ups/index.js';
import { requirePermission } from '../screenings/index.js';
import type {
  AmendmentRequest,
  BaselineRequest,
  FitSessionPage,
  FitSessionResponse,
  ListSessionsQuery,
  MeasurementRequest,
  MeasurementResponse,
  OpenSessionRequest,
} from './fit-sessions.dto.js';
import { SessionIncomplete, SessionNotSigned, WrongSide } from './fit-sessions.errors.js';
import * as queries from './fit-sessions.queries.js';
import { hashOfContent, missingForSignOff } from './sign-off.js';
import { whileOpen } from './while-open.js';

@Injectable()
export class FitSessionsService {
  constructor(private readonly transaction: TenantTransaction) {}

  async open(ctx: TenantContext, request: OpenSessionRequest): Promise<FitSessionResponse> {
    const { studioId } = ctx;
    const { clientId, bikeId, shoeId, appointmentId = null } = request;
    return this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      await requireConsent(tx, { studioId, clientId }, 'health_data');
      if (!(await findBike(tx, { studioId, clientId, id: bikeId }))) throw new UnknownReference('bikeId');
      if (!(await findShoe(tx, { studioId, clientId, id: shoeId }))) throw new UnknownReference('shoeId');
      const screeningId = await requirePermission(tx, { studioId, clientId }, 'riding');
      const fitterId = ctx.userId as string;
      const row = { studioId, clientId, bikeId, shoeId, appointmentId, fitterId, screeningId };
      const id = await queries.insertFitSession(tx, row);
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
    return this.write(ctx, id, 'baseline', (tx) =>
      queries.putBaseline(tx, { studioId: ctx.studioId, fitSessionId: id, ...request }),
    );
  }

  async measure(ctx: TenantContext, id: string, request: MeasurementRequest): Promise<MeasurementResponse> {
    const { kind, side = null, method, repeats, unit } = request;
    return whileOpen(this.transaction, ctx, id, async (tx) => {
      const { sided } = measurementKind(kind);
      if (sided !== (side !== null)) throw new WrongSide(sided);
      const read = readMeasurement(request.kind, request.repeats, request.unit);
      const row = await queries.insertMeasurement(tx, {
        studioId: ctx.studioId,
        fitSessionId: id,
        kind,
        side,
        method,
        repeats,
        unit,
        takenBy: ctx.userId as string,
        ...read,
      });
      await recordAudit(tx, ctx, { action: 'fit-sessions.measure', recordId: id, fields: [kind] });
      return { ...request, id: row.id, ...read };
    });
  }

  async sign(ctx: TenantContext, id: string): Promise<FitSessionResponse> {
    const key = { studioId: ctx.studioId, id };
    return whileOpen(this.transaction, ctx, id, async (tx) => {
      const session = found(await queries.findFitSession(tx, key));
      const missing = missingForSignOff(session);
      if (missing.length > 0) throw new SessionIncomplete(missing);
      const signedAt = await readClock(tx);
      const signedBy = ctx.userId as string;
      await queries.signSession(tx, key, { signedBy, signedAt, contentHash: hashOfContent(session) });
      await scheduleFollowUps(tx, ctx, { fitSessionId: id, clientId: session.clientId, sessionAt: signedAt });
      await recordAudit(tx, ctx, { action: 'fit-sessions.sign', recordId: id });
      return found(await queries.findFitSession(tx, key));
    });
  }

  async amend(ctx: TenantContext, id: string, request: AmendmentRequest): Promise<FitSessionResponse> {
    const key = { studioId: ctx.studioId, id };
    return this.transaction.run(ctx, async (tx) => {
      const session = found(await queries.findFitSession(tx, key));
      if (session.signedAt === null) throw new SessionNotSigned();
      await queries.insertAmendment(tx, {
        studioId: ctx.studioId,
        fitSessionId: id,
        text: request.text,
        writtenBy: ctx.userId as string,
      });
      await rescheduleFollowUps(tx, ctx, { fitSessionId: id });
      await recordAudit(tx, ctx, { action: 'fit-sessions.amend', recordId: id });
      return found(await queries.findFitSession(tx, key));
    });
  }

  private async write(
    ctx: TenantContext,
    id: string,
    field: string,
    put: (tx: Parameters<typeof queries.putBaseline>[0]) => Promise<void>,
  ): Promise<FitSessionResponse> {
    return whileOpen(this.transaction, ctx, id, async (tx) => {
      await put(tx);
      await recordAudit(tx, ctx, { action: 'fit-sessions.write', recordId: id, fields: [field] });
      return found(await queries.findFitSession(tx, { studioId: ctx.studioId, id }));
    });
  }
}
