import { Body, Controller, Get, Param, Post, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { ChangeFollowUpPlanRequest, CreateFollowUpPlanRequest, FollowUpPlanResponse } from './plans.dto.js';
import { PlansService } from './plans.service.js';

@ApiTags('Follow-ups')
@Controller('v1/follow-up-plans')
export class PlansController {
  constructor(private readonly plans: PlansService) {}

  @Get()
  @Describe({
    id: 'listFollowUpPlans',
    summary: 'When whom to ask what: the built in plans, then the studio’s own, each in its newest version',
    returns: [FollowUpPlanResponse],
  })
  list(@Ctx() ctx: TenantContext): Promise<FollowUpPlanResponse[]> {
    return this.plans.list(ctx);
  }

  @Post()
  @Describe({
    id: 'createFollowUpPlan',
    summary: 'A plan of the studio’s own',
    returns: FollowUpPlanResponse,
    status: 201,
    problems: [400, 409, 422],
    versioned: true,
    once: true,
  })
  create(
    @Ctx() ctx: TenantContext,
    @Body() request: CreateFollowUpPlanRequest,
  ): Promise<FollowUpPlanResponse> {
    return this.plans.create(ctx, request);
  }

  @Put(':followUpPlanId')
  @Describe({
    id: 'changeFollowUpPlan',
    summary: 'The next version of one of the studio’s own plans',
    description: 'Follow-ups that were promised by an older version stay as they are.',
    returns: FollowUpPlanResponse,
    problems: [400, 404, 422],
    ifMatch: true,
  })
  change(
    @Ctx() ctx: TenantContext,
    @Param('followUpPlanId') id: string,
    @IfMatch() version: number,
    @Body() request: ChangeFollowUpPlanRequest,
  ): Promise<FollowUpPlanResponse> {
    return this.plans.change(ctx, id, version, request);
  }
}
