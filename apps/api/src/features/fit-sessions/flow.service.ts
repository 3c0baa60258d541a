import { Injectable } from '@nestjs/common';
import { TenantTransaction, visitStages, type TenantContext, type VisitStage } from '@studio/database';
import { found } from '../../http/problem.js';
import { findFitSession } from './fit-sessions.queries.js';
import type { FlowResponse, PlaceRequest, SpanResponse, TimerRequest } from './flow.dto.js';
import { missingForSignOff } from './missing.js';
import { SessionWrites } from './session-writes.js';
import { putPlace, startTimer, stopTimer } from './writes/timers.js';

@Injectable()
export class FlowService {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly writes: SessionWrites,
  ) {}

  async get(ctx: TenantContext, fitSessionId: string): Promise<FlowResponse> {
    return this.transaction.read(ctx, async (sql) => {
      const session = found(await findFitSession(sql, { studioId: ctx.studioId, id: fitSessionId }));
      const missing = await missingForSignOff(sql, ctx, session);
      return {
        place: session.place,
        stages: visitStages.map((stage) => {
          const spans = session.spans.filter((span) => span.stage === stage);
          return {
            stage,
            seconds: spans.reduce((sum, span) => sum + secondsOf(span), 0),
            running: spans.some(({ stoppedAt }) => stoppedAt === null),
            spans,
            missing: session.signedAt === null ? missing.filter((item) => item.stage === stage) : [],
          };
        }),
      };
    });
  }

  async putPlace(ctx: TenantContext, fitSessionId: string, request: PlaceRequest): Promise<FlowResponse> {
    await this.writes.now(ctx, fitSessionId, putPlace, request);
    return this.get(ctx, fitSessionId);
  }

  async startTimer(
    ctx: TenantContext,
    fitSessionId: string,
    stage: VisitStage,
    request: TimerRequest,
  ): Promise<FlowResponse> {
    await this.writes.now(ctx, fitSessionId, startTimer, { ...request, stage });
    return this.get(ctx, fitSessionId);
  }

  async stopTimer(
    ctx: TenantContext,
    fitSessionId: string,
    stage: VisitStage,
    request: TimerRequest,
  ): Promise<FlowResponse> {
    await this.writes.now(ctx, fitSessionId, stopTimer, { ...request, stage });
    return this.get(ctx, fitSessionId);
  }
}

const secondsOf = ({ startedAt, stoppedAt }: SpanResponse): number =>
  stoppedAt === null ? 0 : (Date.parse(stoppedAt) - Date.parse(startedAt)) / 1000;
