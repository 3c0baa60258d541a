import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ChoosePlanOptionRequest,
  MakePlanRequest,
  PlanPage,
  PlanResponse,
  PredictionResponse,
} from './plans.dto.js';
import { PlansService } from './plans.service.js';

@ApiTags('Plans')
@Controller('v1')
export class PlansController {
  constructor(private readonly plans: PlansService) {}

  @Post('fit-sessions/:fitSessionId/plans')
  @Describe({
    id: 'makePlan',
    summary: "Work out a plan from the session's record and keep it as it is",
    description:
      'From the newest measurements, the position, the bike and the shoe, and from what is added. 422 names what is ' +
      'not measured yet, or the input that makes the geometry impossible.',
    returns: PlanResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  make(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Body() request: MakePlanRequest,
  ): Promise<PlanResponse> {
    return this.plans.make(ctx, fitSessionId, request);
  }

  @Get('fit-sessions/:fitSessionId/plans')
  @Describe({
    id: 'listPlans',
    summary: 'The plans of a session, oldest first',
    returns: PlanPage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Query() query: PageQuery,
  ): Promise<PlanPage> {
    return this.plans.list(ctx, fitSessionId, query);
  }

  @Get('fit-sessions/:fitSessionId/predictions')
  @Describe({
    id: 'listPredictions',
    summary: 'What the chosen plans predicted beside what was found and left',
    description: 'Of each kind and side the newest plan; one whose option is not chosen predicts nothing.',
    returns: [PredictionResponse],
    problems: [404],
  })
  listPredictions(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
  ): Promise<PredictionResponse[]> {
    return this.plans.listPredictions(ctx, fitSessionId);
  }

  @Get('plans/:planId')
  @Describe({ id: 'getPlan', summary: 'A plan as it was made', returns: PlanResponse, problems: [404] })
  get(@Ctx() ctx: TenantContext, @Param('planId', idPipe) id: string): Promise<PlanResponse> {
    return this.plans.get(ctx, id);
  }

  @Post('plans/:planId/choice')
  @Describe({
    id: 'choosePlanOption',
    summary: 'Say which option of a plan is carried out, and why; once',
    description:
      '409 when the screening does not permit what the option does, or when one is chosen already.',
    returns: PlanResponse,
    problems: [400, 404, 409],
  })
  choose(
    @Ctx() ctx: TenantContext,
    @Param('planId', idPipe) id: string,
    @Body() request: ChoosePlanOptionRequest,
  ): Promise<PlanResponse> {
    return this.plans.choose(ctx, id, request);
  }
}
