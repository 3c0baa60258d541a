import { Body, Controller, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import type { CleatPlan } from '@studio/fit-math';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CleatPlanResponse,
  ChooseOptionRequest,
  PlanCleatRequest,
  toCleatPlan,
} from '../fit-sessions/index.js';
import type { PlanResponse } from './plans.dto.js';
import { PlansService } from './plans.service.js';

/** The kind of plan that is made most, with its answer spelled out. */
@ApiTags('Plans')
@Controller('v1')
export class CleatPlansController {
  constructor(private readonly plans: PlansService) {}

  @Post('fit-sessions/:fitSessionId/cleat-plans')
  @Describe({
    id: 'planCleat',
    summary: 'Work out how far back the cleat can go, and what saddle, bars, knee and calf do then',
    description:
      "From this session's measurements of that side, its shoe and its bike. 422 names what is not measured yet, or " +
      'the input that makes the geometry impossible.',
    returns: CleatPlanResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  async plan(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Body() { side }: PlanCleatRequest,
  ): Promise<CleatPlanResponse> {
    return asCleatPlan(await this.plans.make(ctx, fitSessionId, { kind: 'cleat', side }));
  }

  @Post('cleat-plans/:cleatPlanId/choice')
  @Describe({
    id: 'chooseCleatOption',
    summary: 'Say which option of a plan is carried out, and why; once',
    returns: CleatPlanResponse,
    problems: [400, 404, 409],
  })
  async choose(
    @Ctx() ctx: TenantContext,
    @Param('cleatPlanId', idPipe) id: string,
    @Body() { way, because }: ChooseOptionRequest,
  ): Promise<CleatPlanResponse> {
    return asCleatPlan(await this.plans.choose(ctx, id, { option: way, because }));
  }
}

function asCleatPlan({ id, side, result, saddleOffsetMm, choice }: PlanResponse): CleatPlanResponse {
  return toCleatPlan({
    ...{ id, saddleOffsetMm },
    side: side as 'left' | 'right',
    result: result as CleatPlan,
    chosenWay: choice?.option ?? null,
    chosenBecause: choice?.because ?? null,
  });
}
