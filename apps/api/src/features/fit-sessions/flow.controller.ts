import { Body, Controller, Get, Param, ParseEnumPipe, Post, Put } from '@nestjs/common';
import { ApiParam, ApiTags } from '@nestjs/swagger';
import { visitStages, type TenantContext, type VisitStage } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { NotFound } from '../../http/problem.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { FlowResponse, PlaceRequest, TimerRequest } from './flow.dto.js';
import { FlowService } from './flow.service.js';

const visitStagePipe = new ParseEnumPipe(Object.fromEntries(visitStages.map((stage) => [stage, stage])), {
  exceptionFactory: () => new NotFound(),
});

@ApiTags('Flow of a session')
@Controller('v1/fit-sessions/:fitSessionId')
export class FlowController {
  constructor(private readonly flow: FlowService) {}

  @Get('flow')
  @Describe({
    id: 'getFlow',
    summary: 'Where the visit is, how long each stage took, and what a signature still waits for',
    returns: FlowResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('fitSessionId', idPipe) id: string): Promise<FlowResponse> {
    return this.flow.get(ctx, id);
  }

  @Put('place')
  @Describe({
    id: 'putPlace',
    summary: 'Keep where in the visit one is, so that another device goes on there',
    returns: FlowResponse,
    problems: [400, 404, 409],
  })
  putPlace(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: PlaceRequest,
  ): Promise<FlowResponse> {
    return this.flow.putPlace(ctx, id, request);
  }

  @Post('timers/:visitStage/start')
  @ApiParam({ name: 'visitStage', enum: visitStages })
  @Describe({
    id: 'startTimer',
    summary: 'Start the timer of a stage',
    description:
      '409 `fit-sessions.timer` while it runs. A stage may be gone back to: each start begins a span.',
    returns: FlowResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  start(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Param('visitStage', visitStagePipe) stage: VisitStage,
    @Body() request: TimerRequest,
  ): Promise<FlowResponse> {
    return this.flow.startTimer(ctx, id, stage, request);
  }

  @Post('timers/:visitStage/stop')
  @ApiParam({ name: 'visitStage', enum: visitStages })
  @Describe({
    id: 'stopTimer',
    summary: 'Stop the timer of a stage',
    returns: FlowResponse,
    problems: [400, 404, 409, 422],
    once: true,
  })
  stop(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Param('visitStage', visitStagePipe) stage: VisitStage,
    @Body() request: TimerRequest,
  ): Promise<FlowResponse> {
    return this.flow.stopTimer(ctx, id, stage, request);
  }
}
