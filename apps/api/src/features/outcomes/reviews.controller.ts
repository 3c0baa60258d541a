import { Controller, Get, Header, Query, StreamableFile } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe, DescribeFile } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { DrawingResponse } from './drawing.dto.js';
import { OutcomeReviewResponse, PowerAnswerResponse } from './review.dto.js';
import { csvColumns } from './review-csv.js';
import { CompareQuery, ReviewQuery } from './review-query.dto.js';
import { ReviewsService } from './reviews.service.js';

@ApiTags('Outcomes')
@Controller('v1/outcomes')
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

  @Get('review/drawings')
  @Describe({
    id: 'drawReview',
    summary: 'A review in pictures: who answered, what changed on average, and how everybody changed',
    description: 'Each with a text alternative and the numbers behind it; legible in grey.',
    returns: [DrawingResponse],
    problems: [400],
  })
  drawings(@Ctx() ctx: TenantContext, @Query() query: ReviewQuery): Promise<DrawingResponse[]> {
    return this.reviews.drawings(ctx, query);
  }

  @Get('review.csv')
  @Header('content-type', 'text/csv; charset=utf-8')
  @Header('content-disposition', 'attachment; filename="outcomes.csv"')
  @DescribeFile({
    id: 'exportReviewCsv',
    summary: 'A review as CSV, small cells hidden',
    description: `Columns: ${csvColumns}.`,
    type: 'text/csv',
    problems: [400, 422],
  })
  csv(@Ctx() ctx: TenantContext, @Query() query: CompareQuery): Promise<string> {
    return this.reviews.csv(ctx, query);
  }

  @Get('review.pdf')
  @DescribeFile({
    id: 'exportReviewPdf',
    summary: 'A review on paper, small cells hidden',
    type: 'application/pdf',
    problems: [400, 422],
  })
  async pdf(@Ctx() ctx: TenantContext, @Query() query: CompareQuery): Promise<StreamableFile> {
    return new StreamableFile(await this.reviews.pdf(ctx, query), {
      type: 'application/pdf',
      disposition: 'attachment; filename="outcomes.pdf"',
    });
  }
}
