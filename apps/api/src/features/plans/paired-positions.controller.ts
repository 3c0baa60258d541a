import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { PairedPositionPage, PairedPositionResponse, PairPositionsRequest } from './paired-positions.dto.js';
import { PairedPositionsService } from './paired-positions.service.js';

@ApiTags('Plans')
@Controller('v1')
export class PairedPositionsController {
  constructor(private readonly pairs: PairedPositionsService) {}

  @Post('clients/:clientId/paired-positions')
  @Describe({
    id: 'pairPositions',
    summary: 'Carry a position over to a second bike or pair of shoes for another use, with the build list',
    description:
      'Saddle and grips move by what cleat, crank and sole ask, then by what the other use wants. 422 names what is not ' +
      'measured yet; 409 `screenings.not-permitted` where a cleat may not be moved.',
    returns: PairedPositionResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  pair(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: PairPositionsRequest,
  ): Promise<PairedPositionResponse> {
    return this.pairs.pair(ctx, clientId, request);
  }

  @Get('clients/:clientId/paired-positions')
  @Describe({
    id: 'listPairedPositions',
    summary: "A client's paired positions, oldest first",
    returns: PairedPositionPage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Query() query: PageQuery,
  ): Promise<PairedPositionPage> {
    return this.pairs.list(ctx, clientId, query);
  }

  @Get('paired-positions/:pairedPositionId')
  @Describe({
    id: 'getPairedPosition',
    summary: 'A pair as it was worked out',
    returns: PairedPositionResponse,
    problems: [404],
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('pairedPositionId', idPipe) id: string,
  ): Promise<PairedPositionResponse> {
    return this.pairs.get(ctx, id);
  }
}
