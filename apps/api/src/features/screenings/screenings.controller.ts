import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ClearRequest,
  CreateScreeningRequest,
  DeskNoticeResponse,
  QuestionSetResponse,
  ScreeningDetailResponse,
  ScreeningResponse,
} from './screenings.dto.js';
import { ScreeningsService } from './screenings.service.js';

@ApiTags('Screening')
@Controller('v1')
export class ScreeningsController {
  constructor(private readonly screenings: ScreeningsService) {}

  @Get('question-sets')
  @Describe({ id: 'listQuestionSets', summary: 'The question sets in use', returns: [QuestionSetResponse] })
  questionSets(): QuestionSetResponse[] {
    return this.screenings.questionSets();
  }

  @Post('clients/:clientId/screenings')
  @Describe({
    id: 'createScreening',
    summary: "Hand in a client's answers",
    description:
      'The answers are judged by the rules in force and kept with their version. Needs the consent `health_data`. ' +
      'The answer tells only what the front desk may know.',
    returns: DeskNoticeResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  create(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: CreateScreeningRequest,
  ): Promise<DeskNoticeResponse> {
    return this.screenings.create(ctx, clientId, request);
  }

  @Get('clients/:clientId/screenings')
  @Describe({
    id: 'listScreenings',
    summary: "A client's screenings with their findings, newest first",
    description: 'Health data: every reading is kept in the audit log.',
    returns: [ScreeningResponse],
    problems: [404],
  })
  list(@Ctx() ctx: TenantContext, @Param('clientId', idPipe) clientId: string): Promise<ScreeningResponse[]> {
    return this.screenings.list(ctx, clientId);
  }

  @Get('screenings/:screeningId')
  @Describe({
    id: 'getScreening',
    summary: 'A screening with the answers as they were given',
    description: 'Health data: every reading is kept in the audit log.',
    returns: ScreeningDetailResponse,
    problems: [404],
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('screeningId', idPipe) screeningId: string,
  ): Promise<ScreeningDetailResponse> {
    return this.screenings.get(ctx, screeningId);
  }

  @Get('clients/:clientId/desk-notice')
  @Describe({
    id: 'getDeskNotice',
    summary: 'What the front desk is told: bookable, a call is needed, or not before clearance',
    returns: DeskNoticeResponse,
    problems: [404],
  })
  notice(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<DeskNoticeResponse> {
    return this.screenings.notice(ctx, clientId);
  }

  @Post('screenings/:screeningId/clearance')
  @Describe({
    id: 'clearScreening',
    summary: 'Record that a clinician cleared what a screening found, and why',
    description:
      'For all its raised findings at once; referral cases that are about nothing else are closed by it.',
    returns: ScreeningResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  clear(
    @Ctx() ctx: TenantContext,
    @Param('screeningId', idPipe) screeningId: string,
    @Body() request: ClearRequest,
  ): Promise<ScreeningResponse> {
    return this.screenings.clear(ctx, screeningId, request);
  }
}
