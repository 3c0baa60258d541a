import { Injectable } from '@nestjs/common';
import { deskNotice, questionSetsInUse } from '@studio/clinical-flags';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { found } from '../../http/problem.js';
import { requireClient, requireConsent, requireKnownClient } from '../clients/index.js';
import { closeWhatIsCleared } from '../referrals/index.js';
import { clearFindings } from './clear-findings.js';
import { noticeFor } from './notice-for.js';
import { screen } from './screen.js';
import {
  isCleared,
  QuestionSetResponse,
  toScreening,
  toScreeningDetail,
  type ClearRequest,
  type CreateScreeningRequest,
  type DeskNoticeResponse,
  type ScreeningDetailResponse,
  type ScreeningResponse,
} from './screenings.dto.js';
import { requireInUse } from './require-in-use.js';
import { NothingToClear } from './screenings.errors.js';
import * as queries from './screenings.queries.js';

@Injectable()
export class ScreeningsService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** The sets in use, newest versions. */
  questionSets(): QuestionSetResponse[] {
    return questionSetsInUse.map((set) => QuestionSetResponse.of(set));
  }

  async create(
    ctx: TenantContext,
    clientId: string,
    request: CreateScreeningRequest,
  ): Promise<DeskNoticeResponse> {
    const { studioId } = ctx;
    const { occasion = 'intake', ...answered } = request;
    return this.transaction.runOnce(ctx, async (tx) => {
      await requireClient(tx, studioId, clientId);
      await requireConsent(tx, { studioId, clientId }, 'health_data');
      requireInUse(answered);
      const { id, evaluation } = await screen(tx, ctx, { clientId, occasion, ...answered });
      await recordAudit(tx, ctx, { action: 'screenings.create', recordId: id });
      return { id, notice: deskNotice(evaluation) };
    });
  }

  async list(ctx: TenantContext, clientId: string): Promise<ScreeningResponse[]> {
    const { studioId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return (await queries.listScreenings(tx, { studioId, clientId })).map(toScreening);
    });
  }

  async get(ctx: TenantContext, screeningId: string): Promise<ScreeningDetailResponse> {
    return this.transaction.run(ctx, async (tx) => {
      const screening = found(await queries.findScreening(tx, { studioId: ctx.studioId, id: screeningId }));
      return toScreeningDetail(screening);
    });
  }

  async notice(ctx: TenantContext, clientId: string): Promise<DeskNoticeResponse> {
    const { studioId } = ctx;
    const key = { studioId, clientId };
    return this.transaction.run(ctx, async (tx) => {
      await requireKnownClient(tx, studioId, clientId);
      return { notice: await noticeFor(tx, key) };
    });
  }

  async clear(ctx: TenantContext, screeningId: string, request: ClearRequest): Promise<ScreeningResponse> {
    const key = { studioId: ctx.studioId, id: screeningId };
    return this.transaction.runOnce(ctx, async (tx) => {
      const { clientId } = found(await queries.findScreening(tx, key));
      // Pressed twice at once, the second finds it done.
      await queries.lockClient(tx, { studioId: ctx.studioId, clientId });
      const screening = found(await queries.findScreening(tx, key));
      if (screening.raised.length === 0 || isCleared(screening)) throw new NothingToClear();
      const findingIds = screening.raised.map(({ id }) => id);
      await clearFindings(tx, ctx, { clientId, screeningId, findingIds }, request);
      await closeWhatIsCleared(tx, ctx, { clientId });
      await recordAudit(tx, ctx, { action: 'screenings.clear', recordId: screeningId });
      return toScreening(found(await queries.findScreening(tx, key)));
    });
  }
}
