import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { newestProcedure } from '@studio/shoe-work';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ShoeWorkFeasibilityQuery,
  ShoeWorkFeasibilityResponse,
  ShoeWorkProcedureResponse,
  toProcedure,
} from './procedure.dto.js';
import { ShoeWorkService } from './shoe-work.service.js';

@ApiTags('Shoe work')
@Controller('v1')
export class ShoeWorkRulesController {
  constructor(private readonly shoeWork: ShoeWorkService) {}

  @Get('shoe-work-procedure')
  @Describe({
    id: 'getShoeWorkProcedure',
    summary: 'The steps of shoe work in force, what to beware of, and what the client signs first',
    description: 'Safety sheets, makers’ instructions and the rules of the workplace come first.',
    returns: ShoeWorkProcedureResponse,
  })
  procedure(): ShoeWorkProcedureResponse {
    return toProcedure(newestProcedure);
  }

  @Get('clients/:clientId/shoes/:shoeId/shoe-work-feasibility')
  @Describe({
    id: 'getShoeWorkFeasibility',
    summary: 'Whether a pair can take each way of shoe work, and what the screening in force bars of it',
    description: 'What is not known is named, and nothing is feasible without it.',
    returns: ShoeWorkFeasibilityResponse,
    problems: [400, 404],
  })
  feasibility(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Param('shoeId', idPipe) shoeId: string,
    @Query() query: ShoeWorkFeasibilityQuery,
  ): Promise<ShoeWorkFeasibilityResponse> {
    return this.shoeWork.feasibility(ctx, { clientId, shoeId }, query);
  }
}
