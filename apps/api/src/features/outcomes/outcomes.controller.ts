import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ClientSummaryQuery, ClientSummaryResponse } from './client-summary.dto.js';
import { DrawingResponse } from './drawing.dto.js';
import { ListOutcomesQuery, OutcomePage, OutcomeResponse } from './outcomes.dto.js';
import { OutcomesService } from './outcomes.service.js';

@ApiTags('Outcomes')
@Controller('v1')
export class OutcomesController {
  constructor(private readonly outcomes: OutcomesService) {}

  @Get('outcomes')
  @Describe({
    id: 'listOutcomes',
    summary: 'The outcomes behind the review',
    returns: OutcomePage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListOutcomesQuery): Promise<OutcomePage> {
    return this.outcomes.list(ctx, query);
  }

  @Get('fit-sessions/:fitSessionId/outcome')
  @Describe({
    id: 'getOutcome',
    summary: "One session's outcome, once somebody has answered",
    returns: OutcomeResponse,
    problems: [404],
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
  ): Promise<OutcomeResponse> {
    return this.outcomes.get(ctx, fitSessionId);
  }

  @Get('fit-sessions/:fitSessionId/client-summary')
  @Describe({
    id: 'getClientSummary',
    summary:
      'What the client can be told, once there is an answer: better, no real change, worse, cannot tell',
    description:
      'A change is real when it is above the error of measuring and large enough to matter, by published thresholds. Every version that was ever there can be read.',
    returns: ClientSummaryResponse,
    problems: [400, 404],
  })
  clientSummary(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Query() query: ClientSummaryQuery,
  ): Promise<ClientSummaryResponse> {
    return this.outcomes.clientSummary(ctx, fitSessionId, query.version ?? null);
  }

  @Get('fit-sessions/:fitSessionId/client-summary/drawing')
  @Describe({
    id: 'drawClientSummary',
    summary: "A client's measures over the weeks, against what would be no real change",
    returns: DrawingResponse,
    problems: [400, 404],
  })
  clientDrawing(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Query() query: ClientSummaryQuery,
  ): Promise<DrawingResponse> {
    return this.outcomes.clientDrawing(ctx, fitSessionId, query.version ?? null);
  }
}
