import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { pageOf, pageSize } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import { requireClient, requireConsent } from '../clients/index.js';
import { requireInUse } from '../equipment/index.js';
import { requirePermission } from '../screenings/index.js';
import type {
  BaselineRequest,
  FitSessionPage,
  FitSessionResponse,
  ListSessionsQuery,
  OpenSessionRequest,
} from './fit-sessions.dto.js';
import { IdTaken } from './fit-sessions.errors.js';
import * as queries from './fit-sessions.queries.js';
import { SessionWrites } from './session-writes.js';
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
