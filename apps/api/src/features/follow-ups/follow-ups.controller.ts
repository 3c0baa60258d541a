import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { FollowUpReceivedResponse } from './follow-up-links.dto.js';
import {
  AddFollowUpRequest,
  ChoosePlanRequest,
  FollowUpChangeResponse,
  FollowUpLineResponse,
  FollowUpPage,
  FollowUpDetailResponse,
  PhoneAnswersRequest,
  ListFollowUpsQuery,
  MoveFollowUpRequest,
  SkipFollowUpRequest,
} from './follow-ups.dto.js';
import { FollowUpsService } from './follow-ups.service.js';

@ApiTags('Follow-ups')
@Controller('v1')
export class FollowUpsController {
  constructor(private readonly followUps: FollowUpsService) {}

  @Get('clients/:clientId/follow-ups')
  @Describe({
    id: 'listFollowUps',
    summary: 'When a client is asked how it goes, and how far that is; nothing of the answers',
    returns: FollowUpPage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Query() query: ListFollowUpsQuery,
  ): Promise<FollowUpPage> {
    return this.followUps.list(ctx, clientId, query);
  }

  @Post('clients/:clientId/follow-ups')
  @Describe({
    id: 'addFollowUp',
    summary: 'Ask a client once more than planned, and why',
    returns: FollowUpLineResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    versioned: true,
    once: true,
  })
  add(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: AddFollowUpRequest,
  ): Promise<FollowUpLineResponse> {
    return this.followUps.add(ctx, clientId, request);
  }

  @Post('fit-sessions/:fitSessionId/follow-up-plan')
  @Describe({
    id: 'chooseFollowUpPlan',
    summary: 'Follow a signed session by another plan, or by one more',
    description:
      'What was asked already, or changed by hand, stays; steps whose time is over are not made up for.',
    returns: [FollowUpLineResponse],
    problems: [400, 404, 409, 422],
  })
  choosePlan(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Body() request: ChoosePlanRequest,
  ): Promise<FollowUpLineResponse[]> {
    return this.followUps.choosePlan(ctx, fitSessionId, request);
  }

  @Get('follow-ups/:followUpId')
  @Describe({
    id: 'getFollowUp',
    summary: 'One follow-up, what it asks and what was answered',
    returns: FollowUpDetailResponse,
    problems: [404],
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('followUpId', idPipe) id: string): Promise<FollowUpDetailResponse> {
    return this.followUps.get(ctx, id);
  }

  @Post('follow-ups/:followUpId/phone-answers')
  @Describe({
    id: 'answerFollowUpByPhone',
    summary: 'Write down what a client said who was asked on the phone',
    description:
      'Judged as if the client had written it. `advice` is what to tell the client before the call ends.',
    returns: FollowUpReceivedResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  answerByPhone(
    @Ctx() ctx: TenantContext,
    @Param('followUpId', idPipe) id: string,
    @Body() request: PhoneAnswersRequest,
  ): Promise<FollowUpReceivedResponse> {
    return this.followUps.answerByPhone(ctx, id, request);
  }

  @Get('follow-ups/:followUpId/changes')
  @Describe({
    id: 'listFollowUpChanges',
    summary: 'What was changed about a follow-up, by whom and why',
    returns: [FollowUpChangeResponse],
    problems: [404],
  })
  changes(
    @Ctx() ctx: TenantContext,
    @Param('followUpId', idPipe) id: string,
  ): Promise<FollowUpChangeResponse[]> {
    return this.followUps.changes(ctx, id);
  }

  @Post('follow-ups/:followUpId/move')
  @Describe({
    id: 'moveFollowUp',
    summary: 'Ask on another day; also what was skipped or cancelled',
    returns: FollowUpLineResponse,
    problems: [400, 404, 409, 422],
    ifMatch: true,
  })
  move(
    @Ctx() ctx: TenantContext,
    @Param('followUpId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: MoveFollowUpRequest,
  ): Promise<FollowUpLineResponse> {
    return this.followUps.move(ctx, id, version, request);
  }

  @Post('follow-ups/:followUpId/skip')
  @Describe({
    id: 'skipFollowUp',
    summary: 'Do not ask this time; it counts as missing, with the reason',
    returns: FollowUpLineResponse,
    problems: [400, 404, 409],
    ifMatch: true,
  })
  skip(
    @Ctx() ctx: TenantContext,
    @Param('followUpId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: SkipFollowUpRequest,
  ): Promise<FollowUpLineResponse> {
    return this.followUps.skip(ctx, id, version, request);
  }
}
