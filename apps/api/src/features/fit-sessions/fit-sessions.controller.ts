import { Body, Controller, Get, Param, Post, Put, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  BaselineRequest,
  FitSessionPage,
  FitSessionResponse,
  ListSessionsQuery,
  OpenSessionRequest,
} from './fit-sessions.dto.js';
import { FitSessionsService } from './fit-sessions.service.js';

@ApiTags('Fit sessions')
@Controller('v1')
export class FitSessionsController {
  constructor(private readonly sessions: FitSessionsService) {}

  @Post('fit-sessions')
  @Describe({
    id: 'openFitSession',
    summary: "Open the record of a visit for one of the client's bikes",
    description:
      '409 `screenings.not-permitted` while a finding that forbids riding is not cleared, or nothing was screened.',
    returns: FitSessionResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  open(@Ctx() ctx: TenantContext, @Body() request: OpenSessionRequest): Promise<FitSessionResponse> {
    return this.sessions.open(ctx, request);
  }

  @Get('fit-sessions')
  @Describe({
    id: 'listFitSessions',
    summary: "A client's sessions",
    returns: FitSessionPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListSessionsQuery): Promise<FitSessionPage> {
    return this.sessions.list(ctx, query);
  }

  @Get('fit-sessions/:fitSessionId')
  @Describe({
    id: 'getFitSession',
    summary: 'A session with all its parts',
    returns: FitSessionResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('fitSessionId', idPipe) id: string): Promise<FitSessionResponse> {
    return this.sessions.get(ctx, id);
  }

  @Put('fit-sessions/:fitSessionId/baseline')
  @Describe({
    id: 'putBaseline',
    summary: 'How the rider is before anything is changed',
    returns: FitSessionResponse,
    problems: [400, 404, 409],
  })
  putBaseline(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Body() request: BaselineRequest,
  ): Promise<FitSessionResponse> {
    return this.sessions.putBaseline(ctx, id, request);
  }
}
