import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Allow } from '../../http/access.js';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ListOutcomesQuery, OutcomePage, OutcomeResponse, OutcomeReviewResponse } from './outcomes.dto.js';
import { OutcomesService } from './outcomes.service.js';

@ApiTags('Outcomes')
@Controller('v1')
export class OutcomesController {
  constructor(private readonly outcomes: OutcomesService) {}

  @Get('outcomes/review')
  @Allow('owner')
  @Describe({
    id: 'reviewOutcomes',
    summary: 'What changed across clients, with how many, how sure, and who is missing',
    description: 'Nobody was randomised: a change after a fit is not proof that the fit did it.',
    returns: OutcomeReviewResponse,
  })
  review(@Ctx() ctx: TenantContext): Promise<OutcomeReviewResponse> {
    return this.outcomes.review(ctx);
  }

  @Get('outcomes')
  @Allow('owner')
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
  @Allow('owner', 'fitter')
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
}
