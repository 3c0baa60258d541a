import { Injectable } from '@nestjs/common';
import { deskNotice, riderIntake, sinceTheFit } from '@studio/clinical-flags';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { found } from '../../http/problem.js';
import { requireClient, requireConsent } from '../clients/index.js';
import {
  QuestionSetResponse,
  toScreening,
  type ClearRequest,
  type CreateScreeningRequest,
  type DeskNoticeResponse,
  type ScreeningResponse,
} from './screenings.dto.js';
import { NothingToClear } from './screenings.errors.js';
import { permissionInForce } from './permission-in-force.js';
import * as queries from './screenings.queries.js';
import { screen } from './screen.js';

@Injectable()
export class ScreeningsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** The sets in use, newest versions. */
  questionSets(): QuestionSetResponse[] {
    return [riderIntake, sinceTheFit].map((set) => QuestionSetResponse.of(set));
  }

  async create(
    ctx: TenantContext,
    clientId: string,
    request: CreateScreeningRequest,
  ): Promise<DeskNoticeResponse> {
    const { studioId, userId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      await requireConsent(tx, { studioId, clientId }, 'health_data');
      const { id, evaluation } = await screen(tx, {
        studioId,
        clientId,
        occasion: 'intake',
        takenBy: userId,
        ...request,
      });
      await recordAudit(tx, ctx, { action: 'screenings.create', recordId: id });
      return { id, notice: deskNotice(evaluation) };
    });
  }

  /** Reading health answers is itself written down. */
  async list(ctx: TenantContext, clientId: string): Promise<ScreeningResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      await recordAudit(tx, ctx, { action: 'screenings.read', recordId: clientId });
      return (await queries.listScreenings(tx, { studioId, clientId })).map(toScreening);
    });
  }

  async notice(ctx: TenantContext, clientId: string): Promise<DeskNoticeResponse> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      const inForce = permissionInForce(await queries.listScreenings(tx, { studioId, clientId }));
      return { notice: inForce ? deskNotice(inForce) : 'not_screened' };
    });
  }

  async clear(ctx: TenantContext, screeningId: string, request: ClearRequest): Promise<ScreeningResponse> {
    const key = { studioId: ctx.studioId, id: screeningId };
    try {
      return await this.transaction.run(ctx, async (tx) => {
        const screening = found(await queries.findScreening(tx, key));
        const raised = screening.result.findings.some(({ result }) => result === 'raised');
        if (screening.cleared || !raised) throw new NothingToClear();
        await queries.insertClearance(tx, {
          studioId: ctx.studioId,
          clientId: screening.clientId,
          screeningId,
          recordedBy: ctx.userId as string,
          ...request,
        });
        await recordAudit(tx, ctx, { action: 'screenings.clear', recordId: screeningId });
        return toScreening(found(await queries.findScreening(tx, key)));
      });
    } catch (error) {
      throw violates(error, 'clearances_once') ? new NothingToClear() : error;
    }
  }
}
