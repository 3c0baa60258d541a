import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { formulaVersion } from '@studio/fit-math';
import { pageOf, pageSize, type PageQuery } from '../../http/paging.js';
import { found } from '../../http/problem.js';
import { calculations } from '../calculations/index.js';
import { findFitSession, whileOpen } from '../fit-sessions/index.js';
import { saddleOffsetInForceMm } from '../outcomes/index.js';
import { requirePermission } from '../screenings/index.js';
import { buildInput } from './build-input.js';
import { footPitchFrom } from './facts.js';
import { kindsOfPlan } from './plan-kinds.js';
import { toPlan, type PlanRecord } from './plan-record.js';
import type {
  ChoosePlanOptionRequest,
  MakePlanRequest,
  PlanPage,
  PlanResponse,
  PredictionResponse,
} from './plans.dto.js';
import { AlreadyChosen, OptionNotOffered, PlanSide } from './plans.errors.js';
import * as queries from './plans.queries.js';
import { besideLeft } from './predictions.js';
import { readFacts } from './read-facts.js';

@Injectable()
export class PlansService {
  constructor(private readonly transaction: TenantTransaction) {}

  async make(ctx: TenantContext, fitSessionId: string, request: MakePlanRequest): Promise<PlanResponse> {
    const { studioId } = ctx;
    const { kind, side = null, added = {} } = request;
    const { calculation, sided, legs } = kindsOfPlan[kind];
    return whileOpen(this.transaction, ctx, fitSessionId, async (tx) => {
      if (sided !== (side !== null)) throw new PlanSide(sided);
      const facts = await readFacts(tx, { studioId, fitSessionId });
      const inputs = buildInput(kindsOfPlan[kind], facts, side, added);
      const id = await queries.insertPlan(tx, {
        ...{ studioId, fitSessionId, kind, side, inputs, added, formulaVersion },
        footPitchFrom: footPitchFrom(facts, legs?.(side, Object.keys(added)) ?? []),
        result: calculations[calculation](inputs as never),
        saddleOffsetMm: await saddleOffsetInForceMm(tx, studioId),
        plannedBy: ctx.userId,
      });
      await recordAudit(tx, ctx, { action: 'plans.create', recordId: id });
      return toPlan(found(await queries.findPlan(tx, { studioId, id })));
    });
  }

  async get(ctx: TenantContext, id: string): Promise<PlanResponse> {
    const key = { studioId: ctx.studioId, id };
    return toPlan(found(await this.transaction.read(ctx, (sql) => queries.findPlan(sql, key))));
  }

  async list(ctx: TenantContext, fitSessionId: string, query: PageQuery): Promise<PlanPage> {
    const { studioId } = ctx;
    const { after = null } = query;
    const limit = pageSize(query);
    return this.transaction.read(ctx, async (sql) => {
      found(await findFitSession(sql, { studioId, id: fitSessionId }));
      const rows = await queries.listPlans(sql, { studioId, fitSessionId, after, limit: limit + 1 });
      return pageOf(rows.map(toPlan), limit);
    });
  }

  async choose(ctx: TenantContext, id: string, request: ChoosePlanOptionRequest): Promise<PlanResponse> {
    const key = { studioId: ctx.studioId, id };
    const { fitSessionId } = found(await this.transaction.read(ctx, (sql) => queries.findPlan(sql, key)));
    return whileOpen(this.transaction, ctx, fitSessionId, async (tx, { clientId }) => {
      const { options } = toPlan(found(await queries.findPlan(tx, key)));
      const option = options.find((item) => item.id === request.option);
      if (!option?.feasible) {
        throw new OptionNotOffered(
          option?.reasons.map(({ text }) => text).join(' '),
          options.filter(({ feasible }) => feasible).map((item) => item.id),
        );
      }
      for (const activity of option.asks) {
        await requirePermission(tx, { studioId: ctx.studioId, clientId }, activity);
      }
      const choice = { ...request, chosenBy: ctx.userId as string };
      if (!(await queries.chooseOption(tx, key, choice))) throw new AlreadyChosen();
      await recordAudit(tx, ctx, { action: 'plans.choose', recordId: id, fields: ['chosenOption'] });
      return toPlan(found(await queries.findPlan(tx, key)));
    });
  }

  async listPredictions(ctx: TenantContext, fitSessionId: string): Promise<PredictionResponse[]> {
    const { studioId } = ctx;
    return this.transaction.read(ctx, async (sql) => {
      const { positions } = found(await findFitSession(sql, { studioId, id: fitSessionId }));
      const at = (stage: 'found' | 'left') => positions.find((position) => position.stage === stage) ?? null;
      const plans = await queries.listChosenPlans(sql, { studioId, fitSessionId });
      return plans.flatMap((plan) =>
        predictionsOf(plan).map((prediction) => ({
          ...{ planId: plan.id, kind: plan.kind, side: plan.side },
          ...besideLeft(prediction, at('found'), at('left')),
        })),
      );
    });
  }
}

function predictionsOf({ kind, result, chosenOption, side, saddleOffsetMm }: PlanRecord) {
  if (chosenOption === null) return [];
  return kindsOfPlan[kind].predicts?.(result as never, chosenOption, { side, saddleOffsetMm }) ?? [];
}
