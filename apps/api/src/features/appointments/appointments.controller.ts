import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { AllowStaff } from '../../http/access.js';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  AppointmentPage,
  AppointmentResponse,
  CancelAppointmentRequest,
  CreateAppointmentRequest,
  ListAppointmentsQuery,
  MoveAppointmentRequest,
} from './appointments.dto.js';
import { AppointmentsService } from './appointments.service.js';

@ApiTags('Appointments')
@Controller('v1/appointments')
@AllowStaff()
export class AppointmentsController {
  constructor(private readonly appointments: AppointmentsService) {}

  @Post()
  @Describe({
    id: 'createAppointment',
    summary: 'Book a visit',
    description:
      'A fitter and a room can be booked once at a time. 409 `appointments.overlap` tells which of the two is taken, and when.',
    returns: AppointmentResponse,
    status: 201,
    problems: [400, 409, 422],
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateAppointmentRequest): Promise<AppointmentResponse> {
    return this.appointments.create(ctx, request);
  }

  @Get()
  @Describe({
    id: 'listAppointments',
    summary: 'Appointments in a stretch of time',
    returns: AppointmentPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListAppointmentsQuery): Promise<AppointmentPage> {
    return this.appointments.list(ctx, query);
  }

  @Get(':appointmentId')
  @Describe({
    id: 'getAppointment',
    summary: 'One appointment',
    returns: AppointmentResponse,
    problems: [404],
  })
  get(@Ctx() ctx: TenantContext, @Param('appointmentId', idPipe) id: string): Promise<AppointmentResponse> {
    return this.appointments.get(ctx, id);
  }

  @Patch(':appointmentId')
  @Describe({
    id: 'moveAppointment',
    summary: 'Move a visit to another time, fitter or room',
    returns: AppointmentResponse,
    problems: [400, 404, 409, 412, 422],
  })
  move(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @Body() request: MoveAppointmentRequest,
  ): Promise<AppointmentResponse> {
    return this.appointments.move(ctx, id, request);
  }

  @Post(':appointmentId/cancellation')
  @Describe({
    id: 'cancelAppointment',
    summary: 'Cancel a visit; its time is free again',
    returns: AppointmentResponse,
    problems: [400, 404, 409, 412],
  })
  cancel(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @Body() request: CancelAppointmentRequest,
  ): Promise<AppointmentResponse> {
    return this.appointments.cancel(ctx, id, request);
  }
}
