import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { PageQuery } from '../../http/paging.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  ImportMotionRequest,
  MotionRecordingPage,
  MotionRecordingResponse,
} from './motion-recordings.dto.js';
import { MotionRecordingsService } from './motion-recordings.service.js';

@ApiTags('Fit sessions')
@Controller('v1')
export class MotionRecordingsController {
  constructor(private readonly recordings: MotionRecordingsService) {}

  @Post('fit-sessions/:fitSessionId/motion-recordings')
  @Describe({
    id: 'importMotion',
    summary:
      'Import captured motion: angles over the turn with their standard deviations, how the foot is held',
    description: '422 names the row and column of a gap or of what is no number; nothing is filled in.',
    returns: MotionRecordingResponse,
    status: 201,
    problems: [400, 404, 409, 413, 422],
    once: true,
  })
  import(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Body() request: ImportMotionRequest,
  ): Promise<MotionRecordingResponse> {
    return this.recordings.import(ctx, fitSessionId, request);
  }

  @Get('fit-sessions/:fitSessionId/motion-recordings')
  @Describe({
    id: 'listMotionRecordings',
    summary: "A session's recordings of motion",
    returns: MotionRecordingPage,
    problems: [400, 404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Query() query: PageQuery,
  ): Promise<MotionRecordingPage> {
    return this.recordings.list(ctx, fitSessionId, query);
  }

  @Get('motion-recordings/:motionRecordingId')
  @Describe({
    id: 'getMotionRecording',
    summary: 'A recording of motion with its angles over the turn',
    returns: MotionRecordingResponse,
    problems: [404],
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('motionRecordingId', idPipe) id: string,
  ): Promise<MotionRecordingResponse> {
    return this.recordings.get(ctx, id);
  }
}
