import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  CreateHoursExceptionRequest,
  CreateWeeklyHoursRequest,
  HoursExceptionPage,
  HoursExceptionResponse,
  ListHoursQuery,
  OpeningHoursQuery,
  OpeningHoursResponse,
  UpdateHoursExceptionRequest,
  UpdateWeeklyHoursRequest,
  WeeklyHoursPage,
  WeeklyHoursResponse,
} from './opening-hours.dto.js';
import { OpeningHoursService } from './opening-hours.service.js';

@ApiTags('Opening hours')
@Controller('v1')
export class OpeningHoursController {
  constructor(private readonly hours: OpeningHoursService) {}

  @Get('opening-hours')
  @Describe({
    id: 'getOpeningHours',
    summary: 'When studio, site, room or person is there, day by day',
    description:
      "The week's hours, breaks, exceptions and closures come together, those of studio and site included. Where no hours were ever recorded, nothing limits. Times are by the clock of the place; a time the clock skips counts as the moment of the jump, one it shows twice as the first of the two.",
    returns: OpeningHoursResponse,
    problems: [400, 404],
  })
  open(@Ctx() ctx: TenantContext, @Query() query: OpeningHoursQuery): Promise<OpeningHoursResponse> {
    return this.hours.open(ctx, query);
  }

  @Post('weekly-hours')
  @Describe({
    id: 'createWeeklyHours',
    summary: 'Record hours that return every week',
    returns: WeeklyHoursResponse,
    status: 201,
    problems: [400, 422],
    versioned: true,
    once: true,
  })
  createWeekly(
    @Ctx() ctx: TenantContext,
    @Body() request: CreateWeeklyHoursRequest,
  ): Promise<WeeklyHoursResponse> {
    return this.hours.createWeekly(ctx, request);
  }

  @Get('weekly-hours')
  @Describe({
    id: 'listWeeklyHours',
    summary: 'Recorded weekly hours',
    returns: WeeklyHoursPage,
    problems: [400],
  })
  listWeekly(@Ctx() ctx: TenantContext, @Query() query: ListHoursQuery): Promise<WeeklyHoursPage> {
    return this.hours.listWeekly(ctx, query);
  }

  @Patch('weekly-hours/:weeklyHoursId')
  @Describe({
    id: 'updateWeeklyHours',
    summary: 'Change weekly hours, or end them',
    returns: WeeklyHoursResponse,
    problems: [400, 404, 422],
    ifMatch: true,
  })
  updateWeekly(
    @Ctx() ctx: TenantContext,
    @Param('weeklyHoursId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateWeeklyHoursRequest,
  ): Promise<WeeklyHoursResponse> {
    return this.hours.updateWeekly(ctx, id, version, request);
  }

  @Delete('weekly-hours/:weeklyHoursId')
  @Describe({
    id: 'deleteWeeklyHours',
    summary: 'Take back weekly hours that were recorded by mistake',
    problems: [404],
    ifMatch: true,
  })
  deleteWeekly(
    @Ctx() ctx: TenantContext,
    @Param('weeklyHoursId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<void> {
    return this.hours.delete(ctx, 'weekly', id, version);
  }

  @Post('hours-exceptions')
  @Describe({
    id: 'createHoursException',
    summary: 'Record days that are not as every week: a closure, a holiday, leave, other hours',
    returns: HoursExceptionResponse,
    status: 201,
    problems: [400, 422],
    versioned: true,
    once: true,
  })
  createException(
    @Ctx() ctx: TenantContext,
    @Body() request: CreateHoursExceptionRequest,
  ): Promise<HoursExceptionResponse> {
    return this.hours.createException(ctx, request);
  }

  @Get('hours-exceptions')
  @Describe({
    id: 'listHoursExceptions',
    summary: 'Recorded exceptions',
    returns: HoursExceptionPage,
    problems: [400],
  })
  listExceptions(@Ctx() ctx: TenantContext, @Query() query: ListHoursQuery): Promise<HoursExceptionPage> {
    return this.hours.listExceptions(ctx, query);
  }

  @Patch('hours-exceptions/:hoursExceptionId')
  @Describe({
    id: 'updateHoursException',
    summary: 'Change an exception: its days, its hours, its reason',
    returns: HoursExceptionResponse,
    problems: [400, 404],
    ifMatch: true,
  })
  updateException(
    @Ctx() ctx: TenantContext,
    @Param('hoursExceptionId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: UpdateHoursExceptionRequest,
  ): Promise<HoursExceptionResponse> {
    return this.hours.updateException(ctx, id, version, request);
  }

  @Delete('hours-exceptions/:hoursExceptionId')
  @Describe({
    id: 'deleteHoursException',
    summary: 'Take back an exception',
    problems: [404],
    ifMatch: true,
  })
  deleteException(
    @Ctx() ctx: TenantContext,
    @Param('hoursExceptionId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<void> {
    return this.hours.delete(ctx, 'exception', id, version);
  }
}
