import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { SimilarPositionsQuery, SimilarPositionsResponse } from './similar-positions.dto.js';
import { SimilarPositionsService } from './similar-positions.service.js';

@ApiTags('Fit sessions')
@Controller('v1')
export class SimilarPositionsController {
  constructor(private readonly similar: SimilarPositionsService) {}

  @Get('fit-sessions/:fitSessionId/similar-positions')
  @Describe({
    id: 'findSimilarPositions',
    summary: 'How the studio’s other riders with such legs were left, all together: context, never a rule',
    description:
      'Nobody is named, and of fewer than five riders nothing is told but how many. 409 ' +
      '`similar-positions.not-measured` until thigh, shank and foot lever are measured.',
    returns: SimilarPositionsResponse,
    problems: [400, 404, 409],
  })
  find(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Query() query: SimilarPositionsQuery,
  ): Promise<SimilarPositionsResponse> {
    return this.similar.find(ctx, fitSessionId, query);
  }
}
