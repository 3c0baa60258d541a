import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Allow } from '../../http/access.js';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { OutcomeReviewResponse, PowerAnswerResponse } from './review.dto.js';
import { CompareQuery, ReviewQuery } from './review-query.dto.js';
import { ReviewsService } from './reviews.service.js';

@ApiTags('Outcomes')
@Controller('v1/outcomes')
@Allow('owner')
export class ReviewsController {
  constructor(private readonly reviews: ReviewsService) {}

  @Get('review')
  @Describe({
    id: 'reviewOutcomes',
    summary: 'What changed across clients, with how many, how sure, and who is missing',
    description: 'Nobody was randomised: a change after a fit is not proof that the fit did it.',
    returns: OutcomeReviewResponse,
    problems: [400, 422],
  })
  review(@Ctx() ctx: TenantContext, @Query() query: CompareQuery): Promise<OutcomeReviewResponse> {
    return this.reviews.review(ctx, query);
  }

  @Get('power')
  @Describe({
    id: 'askAboutPower',
    summary: 'Did these riders lose 20-minute power? In one sentence, with its interval',
    returns: PowerAnswerResponse,
    problems: [400],
  })
  power(@Ctx() ctx: TenantContext, @Query() query: ReviewQuery): Promise<PowerAnswerResponse> {
    return this.reviews.power(ctx, query);
  }
}
