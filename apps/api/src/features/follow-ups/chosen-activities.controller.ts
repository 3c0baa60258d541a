import { Body, Controller, Get, Param, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ChosenActivitiesFields } from './chosen-activities.dto.js';
import { ChosenActivitiesService } from './chosen-activities.service.js';

@ApiTags('Follow-ups')
@Controller('v1/fit-sessions/:fitSessionId/chosen-activities')
export class ChosenActivitiesController {
  constructor(private readonly activities: ChosenActivitiesService) {}

  @Get()
  @Describe({
    id: 'getChosenActivities',
    summary: 'Up to three things the rider wants to do better, and how well they went before the fit',
    returns: ChosenActivitiesFields,
    problems: [404],
  })
  get(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
  ): Promise<ChosenActivitiesFields> {
    return this.activities.get(ctx, fitSessionId);
  }

  @Put()
  @Describe({
    id: 'putChosenActivities',
    summary: 'Write down what the rider names, before the session is signed',
    returns: ChosenActivitiesFields,
    problems: [400, 404, 409],
  })
  put(
    @Ctx() ctx: TenantContext,
    @Param('fitSessionId', idPipe) fitSessionId: string,
    @Body() request: ChosenActivitiesFields,
  ): Promise<ChosenActivitiesFields> {
    return this.activities.put(ctx, fitSessionId, request);
  }
}
