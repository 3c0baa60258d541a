import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ClinicianScoreResponse, RecordClinicianScoreRequest } from './clinician-scores.dto.js';
import { ClinicianScoresService } from './clinician-scores.service.js';

@ApiTags('Screening')
@Controller('v1/clients/:clientId/clinician-scores')
export class ClinicianScoresController {
  constructor(private readonly scores: ClinicianScoresService) {}

  @Post()
  @Describe({
    id: 'recordClinicianScore',
    summary: 'Record what you examined as a licensed clinician',
    description:
      'What follows is a screening of its own: it may bar and refer, and never allows or lifts anything. Needs the consent ' +
      '`health_data` and a screening before. It sorts and routes; it does not diagnose.',
    returns: ClinicianScoreResponse,
    status: 201,
    problems: [400, 404, 409, 422],
    once: true,
  })
  record(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
    @Body() request: RecordClinicianScoreRequest,
  ): Promise<ClinicianScoreResponse> {
    return this.scores.record(ctx, clientId, request);
  }

  @Get()
  @Describe({
    id: 'listClinicianScores',
    summary: 'What clinicians of the studio recorded, newest first',
    description:
      'Values and results are in it for licensed clinicians; others see who recorded what sort, and when.',
    returns: [ClinicianScoreResponse],
    problems: [404],
  })
  list(
    @Ctx() ctx: TenantContext,
    @Param('clientId', idPipe) clientId: string,
  ): Promise<ClinicianScoreResponse[]> {
    return this.scores.list(ctx, clientId);
  }
}
