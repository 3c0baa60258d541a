import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { ChooseRetentionRequest, RetentionResponse } from './retention.dto.js';
import { RetentionService } from './retention.service.js';

@ApiTags('Rights of the person')
@Controller('v1/retention')
export class RetentionController {
  constructor(private readonly retention: RetentionService) {}

  @Get()
  @Describe({
    id: 'getRetention',
    summary: 'By which law the studio keeps records, and how long each country asks for',
    returns: RetentionResponse,
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext): Promise<RetentionResponse> {
    return this.retention.get(ctx);
  }

  @Put()
  @Describe({
    id: 'chooseRetention',
    summary: 'Choose by which law the studio keeps records',
    description: 'What is to be erased already keeps the day it was given.',
    returns: RetentionResponse,
    problems: [400],
    ifMatch: true,
  })
  choose(
    @Ctx() ctx: TenantContext,
    @IfMatch() version: number,
    @Body() request: ChooseRetentionRequest,
  ): Promise<RetentionResponse> {
    return this.retention.choose(ctx, version, request);
  }
}
