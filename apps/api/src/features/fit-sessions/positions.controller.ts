import { Body, Controller, Get, Param, ParseEnumPipe, Put, Query } from '@nestjs/common';
import { ApiParam, ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { NotFound } from '../../http/problem.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { FitSessionResponse } from './fit-sessions.dto.js';
import {
  ComparePositionsQuery,
  ComparisonOfPositionsResponse,
  ListPositionsQuery,
  PositionPage,
  PositionRequest,
  positionStages,
  type PositionStage,
} from './positions.dto.js';
import { PositionsService } from './positions.service.js';

const stagePipe = new ParseEnumPipe(Object.fromEntries(positionStages.map((stage) => [stage, stage])), {
  exceptionFactory: () => new NotFound(),
});

@ApiTags('Positions')
@Controller('v1')
export class PositionsController {
  constructor(private readonly positions: PositionsService) {}

  @Put('fit-sessions/:fitSessionId/positions/:stage')
  @ApiParam({ name: 'stage', enum: positionStages })
  @Describe({
    id: 'putPosition',
    summary: 'The position as found, as proposed or as left, in a new version',
    description:
      'Whole: what is left out is not measured. No version is overwritten; the newest stands. `basedOn` makes sure ' +
      'that nobody else wrote one in the meantime.',
    returns: FitSessionResponse,
    problems: [400, 404, 409],
  })
  put(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) id: string,
    @Param('stage', stagePipe) stage: PositionStage,
    @Body() request: PositionRequest,
  ): Promise<FitSessionResponse> {
    return this.positions.put(ctx, id, stage, request);
  }

  @Get('clients/:clientId/positions')
  @Describe({
    id: 'listPositions',
    summary: "Every version of the client's positions on every bike, oldest first",
    returns: PositionPage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Query() query: ListPositionsQuery,
  ): Promise<PositionPage> {
    return this.positions.list(ctx, clientId, query);
  }

  @Get('clients/:clientId/position-differences')
  @Describe({
    id: 'comparePositions',
    summary:
      'What differs between any two positions of the client, and whether it is more than measuring errs',
    returns: ComparisonOfPositionsResponse,
    problems: [400, 404],
  })
  compare(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Query() query: ComparePositionsQuery,
  ): Promise<ComparisonOfPositionsResponse> {
    return this.positions.compare(ctx, clientId, query);
  }
}
