import { Body, Controller, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  AppointmentChangeResponse,
  AppointmentPage,
  AppointmentResponse,
  CancelAppointmentRequest,
  CreateAppointmentRequest,
  ListAppointmentsQuery,
  MoveAppointmentRequest,
} from './appointments.dto.js';
import { AppointmentsService } from './appointments.service.js';

/** A change of state: 409 `appointments.not-possible` names the state and what it allows. */
const change = { returns: AppointmentResponse, problems: [404, 409], ifMatch: true } as const;

@ApiTags('Appointments')
@Controller('v1/appointments')
export class AppointmentsController {
  constructor(private readonly appointments: AppointmentsService) {}

  @Post()
  @Describe({
    id: 'createAppointment',
    summary: 'Book a visit, or hold its time',
    description:
      'Fitter, room and bench can be booked once at a time, with the buffers of the service. 409 `appointments.overlap` tells which of them is taken, and when.',
    returns: AppointmentResponse,
    status: 201,
    problems: [400, 409, 422],
    versioned: true,
    once: true,
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
    versioned: true,
  })
  get(@Ctx() ctx: TenantContext, @Param('appointmentId', idPipe) id: string): Promise<AppointmentResponse> {
    return this.appointments.get(ctx, id);
  }

  @Get(':appointmentId/history')
  @Describe({
    id: 'getAppointmentHistory',
    summary: 'Who did what with it, and when',
    returns: [AppointmentChangeResponse],
    problems: [404],
  })
  history(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
  ): Promise<AppointmentChangeResponse[]> {
    return this.appointments.history(ctx, id);
  }

  @Patch(':appointmentId')
  @Describe({
    ...change,
    id: 'moveAppointment',
    summary: 'Move a visit to another time, fitter, room or bench',
    problems: [400, 404, 409, 422],
  })
  move(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: MoveAppointmentRequest,
  ): Promise<AppointmentResponse> {
    return this.appointments.move(ctx, id, version, request);
  }

  @Post(':appointmentId/booking')
  @Describe({ ...change, id: 'bookHeldAppointment', summary: 'Book what is held, before the hold runs out' })
  book(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<AppointmentResponse> {
    return this.appointments.act(ctx, id, version, 'book');
  }

  @Post(':appointmentId/cancellation')
  @Describe({
    ...change,
    id: 'cancelAppointment',
    summary: 'Cancel a visit; its time is free again',
    problems: [400, 404, 409],
  })
  cancel(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: CancelAppointmentRequest,
  ): Promise<AppointmentResponse> {
    return this.appointments.cancel(ctx, id, version, request);
  }

  @Post(':appointmentId/check-in')
  @Describe({
    ...change,
    id: 'checkInAppointment',
    summary: 'The client is here',
    description:
      '409 `appointments.prerequisites-missing` names what the service asks for and is not in hand.',
  })
  checkIn(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<AppointmentResponse> {
    return this.appointments.checkIn(ctx, id, version);
  }

  @Post(':appointmentId/no-show')
  @Describe({ ...change, id: 'markAppointmentNoShow', summary: 'The client did not come' })
  noShow(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<AppointmentResponse> {
    return this.appointments.markNoShow(ctx, id, version);
  }

  @Post(':appointmentId/completion')
  @Describe({ ...change, id: 'completeAppointment', summary: 'The visit is over' })
  complete(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<AppointmentResponse> {
    return this.appointments.act(ctx, id, version, 'complete');
  }

  @Post(':appointmentId/reinstatement')
  @Describe({
    ...change,
    id: 'reinstateAppointment',
    summary: 'Take back a check-in or a no-show that was recorded by mistake',
  })
  reinstate(
    @Ctx() ctx: TenantContext,
    @Param('appointmentId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<AppointmentResponse> {
    return this.appointments.act(ctx, id, version, 'reinstate');
  }
}
