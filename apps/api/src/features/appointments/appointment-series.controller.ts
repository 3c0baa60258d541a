import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { CreateSeriesRequest, SeriesResponse } from './appointments.dto.js';
import { AppointmentsService } from './appointments.service.js';

@ApiTags('Appointments')
@Controller('v1/appointment-series')
export class AppointmentSeriesController {
  constructor(private readonly appointments: AppointmentsService) {}

  @Post()
  @Describe({
    id: 'createAppointmentSeries',
    summary: 'Book visits that belong together, such as shoe work: prepare, cure, fit',
    returns: SeriesResponse,
    status: 201,
    problems: [400, 409, 422],
    once: true,
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateSeriesRequest): Promise<SeriesResponse> {
    return this.appointments.createSeries(ctx, request);
  }

  @Get(':seriesId')
  @Describe({
    id: 'getAppointmentSeries',
    summary: 'The visits of a series, in order',
    returns: SeriesResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('seriesId', idPipe) seriesId: string): Promise<SeriesResponse> {
    return this.appointments.getSeries(ctx, seriesId);
  }
}
