import { Body, Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ClinicianMarkResponse, GiveClinicianMarkRequest } from './clinician-marks.dto.js';
import { ClinicianMarksService } from './clinician-marks.service.js';

@ApiTags('Studio')
@Controller('v1/staff/:staffId/clinician-marks')
export class ClinicianMarksController {
  constructor(private readonly marks: ClinicianMarksService) {}

  @Post()
  @Describe({
    id: 'giveClinicianMark',
    summary: 'Vouch that a fitter is a licensed clinician, as the register says',
    description:
      'Until it is ended the fitter records clinician scores and sees their values; from the next sign-in or renewal ' +
      'of it on. A mark that stands is replaced.',
    returns: ClinicianMarkResponse,
    status: 201,
    problems: [400, 404, 409],
    once: true,
  })
  give(
    @Ctx() ctx: TenantContext,
    @Param('staffId', idPipe) id: string,
    @Body() request: GiveClinicianMarkRequest,
  ): Promise<ClinicianMarkResponse> {
    return this.marks.give(ctx, id, request);
  }

  @Get()
  @Describe({
    id: 'listClinicianMarks',
    summary: 'When somebody was vouched for as a clinician, newest first',
    returns: [ClinicianMarkResponse],
    problems: [404],
  })
  list(@Ctx() ctx: TenantContext, @Param('staffId', idPipe) id: string): Promise<ClinicianMarkResponse[]> {
    return this.marks.list(ctx, id);
  }

  @Delete()
  @Describe({
    id: 'endClinicianMark',
    summary: 'End the mark that stands',
    description:
      'Nothing more is recorded under it from now on; values are shown for ten minutes at most, until the access token ends.',
    problems: [404, 409],
  })
  end(@Ctx() ctx: TenantContext, @Param('staffId', idPipe) id: string): Promise<void> {
    return this.marks.end(ctx, id);
  }
}
