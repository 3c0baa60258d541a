import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { DrawingResponse } from './drawing.dto.js';
import { ApplyOffsetRequest, ModelCheckResponse, SaddleOffsetResponse } from './model-check.dto.js';
import { ModelCheckService } from './model-check.service.js';

@ApiTags('Outcomes')
@Controller('v1/outcomes')
export class ModelCheckController {
  constructor(private readonly modelChecks: ModelCheckService) {}

  @Get('model-check')
  @Describe({
    id: 'checkModel',
    summary: 'How the saddles left lie against what was computed, and an offset when that is surely off',
    returns: ModelCheckResponse,
  })
  check(@Ctx() ctx: TenantContext): Promise<ModelCheckResponse> {
    return this.modelChecks.check(ctx);
  }

  @Get('model-check/drawing')
  @Describe({
    id: 'drawModelCheck',
    summary: 'Computed and left saddle changes against each other',
    returns: DrawingResponse,
    problems: [404],
  })
  drawing(@Ctx() ctx: TenantContext): Promise<DrawingResponse> {
    return this.modelChecks.drawing(ctx);
  }

  @Get('saddle-offsets')
  @Describe({
    id: 'listSaddleOffsets',
    summary: 'Every offset that was in force, newest first',
    returns: [SaddleOffsetResponse],
  })
  offsets(@Ctx() ctx: TenantContext): Promise<SaddleOffsetResponse[]> {
    return this.modelChecks.offsets(ctx);
  }

  @Post('saddle-offsets')
  @Describe({
    id: 'applySaddleOffset',
    summary: 'Have an offset added to the saddle changes of plans made from now on',
    description: 'Plans made before keep what they were made with.',
    returns: SaddleOffsetResponse,
    status: 201,
    problems: [400, 412],
    once: true,
  })
  apply(@Ctx() ctx: TenantContext, @Body() request: ApplyOffsetRequest): Promise<SaddleOffsetResponse> {
    return this.modelChecks.apply(ctx, request);
  }
}
