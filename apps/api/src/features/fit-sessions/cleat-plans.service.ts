import { Injectable } from '@nestjs/common';
import { recordAudit, TenantTransaction, type TenantContext } from '@studio/database';
import { cleatPlan, cleatWays, type CleatPlan } from '@studio/fit-math';
import { found } from '../../http/problem.js';
import { findBike, findShoe } from '../equipment/index.js';
import { saddleOffsetInForceMm } from '../outcomes/index.js';
import { requirePermission } from '../screenings/index.js';
import {
  toCleatPlan,
  type ChooseOptionRequest,
  type CleatPlanResponse,
  type PlanCleatRequest,
} from './cleat-plan.dto.js';
import { cleatPlanInput } from './cleat-plan-input.js';
import * as queries from './cleat-plans.queries.js';
import { OptionNotFeasible } from './fit-sessions.errors.js';
import { findFitSession } from './fit-sessions.queries.js';
import { whileOpen } from './while-open.js';

@Injectable()
export class CleatPlansService {
  constructor(private readonly transaction: TenantTransaction) {}

  async plan(
    ctx: TenantContext,
    fitSessionId: string,
    { side }: PlanCleatRequest,
  ): Promise<CleatPlanResponse> {
    const { studioId } = ctx;
    return whileOpen(this.transaction, ctx, fitSessionId, async (tx) => {
      const { clientId, bikeId, shoeId, measurements } = found(
        await findFitSession(tx, { studioId, id: fitSessionId }),
      );
      const bike = found(await findBike(tx, { studioId, clientId, id: bikeId }));
      const shoe = found(await findShoe(tx, { studioId, clientId, id: shoeId }));
      const inputs = cleatPlanInput(side, measurements, bike, shoe);
      const plan = await queries.insertCleatPlan(tx, {
        studioId,
        fitSessionId,
        side,
        inputs,
        result: cleatPlan(inputs),
        saddleOffsetMm: await saddleOffsetInForceMm(tx, studioId),
      });
      await recordAudit(tx, ctx, { action: 'cleat-plans.create', recordId: plan.id });
      return toCleatPlan(plan);
    });
  }

  async choose(ctx: TenantContext, id: string, request: ChooseOptionRequest): Promise<CleatPlanResponse> {
    const key = { studioId: ctx.studioId, id };
    const { fitSessionId } = found(await this.transaction.run(ctx, (tx) => queries.findCleatPlan(tx, key)));
    return whileOpen(this.transaction, ctx, fitSessionId, async (tx, session) => {
      const { side, result, saddleOffsetMm } = found(await queries.findCleatPlan(tx, key)) as {
        side: 'left' | 'right';
        result: CleatPlan;
        saddleOffsetMm: number;
      };
      const option = result.options.find(({ way }) => way === request.way);
      if (!option?.feasible) {
        throw new OptionNotFeasible(option?.reasons.map(({ text }) => text).join(' '), {
          feasible: result.options.filter(({ feasible }) => feasible).map(({ way }) => way),
        });
      }
      const { clientId } = session;
      await requirePermission(tx, { studioId: ctx.studioId, clientId }, 'cleat_change');
      const cutsTheSole = cleatWays.find((way) => way.id === request.way)?.needsWholeArch ?? true;
      if (cutsTheSole) await requirePermission(tx, { studioId: ctx.studioId, clientId }, 'shoe_work');
      await queries.chooseOption(tx, key, request);
      await recordAudit(tx, ctx, {
        action: 'cleat-plans.choose',
        recordId: id,
        fields: ['chosenWay', 'chosenBecause'],
      });
      return toCleatPlan({
        id,
        side,
        result,
        saddleOffsetMm,
        chosenWay: request.way,
        chosenBecause: request.because,
      });
    });
  }
}
