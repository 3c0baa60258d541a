import { Injectable } from '@nestjs/common';
import { findQuestionSet } from '@studio/clinical-flags';
import { recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { builtInPlans, checkSteps, type PlanStep } from '@studio/follow-up-plans';
import { found, StaleVersion } from '../../http/problem.js';
import { PlanImpossible, PlanNameTaken } from './follow-ups.errors.js';
import {
  FollowUpPlanResponse,
  stepOf,
  type ChangeFollowUpPlanRequest,
  type CreateFollowUpPlanRequest,
} from './plans.dto.js';
import * as queries from './plans.queries.js';

@Injectable()
export class PlansService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext): Promise<FollowUpPlanResponse[]> {
    const own = await this.transaction.read(ctx, (sql) =>
      queries.listOwnPlans(sql, { studioId: ctx.studioId, planId: null }),
    );
    return [
      ...builtInPlans.map((plan) => FollowUpPlanResponse.of(plan, true)),
      ...own.map((plan) => FollowUpPlanResponse.of(plan, false)),
    ];
  }

  async create(
    ctx: TenantContext,
    { id, name, steps: asked }: CreateFollowUpPlanRequest,
  ): Promise<FollowUpPlanResponse> {
    const steps = possibleSteps(asked);
    if (builtInPlans.some((plan) => plan.id === id)) throw new PlanNameTaken();
    return this.insert(ctx, { id, version: 1, name, steps }, () => new PlanNameTaken());
  }

  /** A new version; what was promised by an older one stays as it was promised. */
  async change(
    ctx: TenantContext,
    id: string,
    version: number,
    { name, steps: asked }: ChangeFollowUpPlanRequest,
  ): Promise<FollowUpPlanResponse> {
    const [newest] = await this.transaction.read(ctx, (sql) =>
      queries.listOwnPlans(sql, { studioId: ctx.studioId, planId: id }),
    );
    if (found(newest ?? null).version !== version) throw new StaleVersion();
    return this.insert(
      ctx,
      { id, version: version + 1, name, steps: possibleSteps(asked) },
      () => new StaleVersion(),
    );
  }

  private async insert(
    ctx: TenantContext,
    plan: { id: string; version: number; name: string; steps: PlanStep[] },
    whenTaken: () => Error,
  ): Promise<FollowUpPlanResponse> {
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const { studioId } = ctx;
        const id = await queries.insertPlan(tx, { ...plan, studioId, createdBy: ctx.userId as string });
        await recordAudit(tx, ctx, { action: 'follow-up-plans.write', recordId: id, fields: [plan.id] });
        return FollowUpPlanResponse.of(plan, false);
      });
    } catch (error) {
      throw violates(error, 'follow_up_plans_version_once') ? whenTaken() : error;
    }
  }
}

/** @throws PlanImpossible */
function possibleSteps(asked: CreateFollowUpPlanRequest['steps']): PlanStep[] {
  const steps = asked.map(stepOf);
  const unknown = steps.flatMap(({ questionSet: { id, version } }, at) =>
    findQuestionSet(id, version)
      ? []
      : [{ field: `steps.${at}.questionSet`, message: 'is no set of questions' }],
  );
  const problems = [...checkSteps(steps), ...unknown];
  if (problems.length > 0) throw new PlanImpossible(problems);
  return steps;
}
