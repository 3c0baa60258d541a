import { ApiProperty } from '@nestjs/swagger';
import { appointmentStates, type AppointmentState } from '@studio/database';
import { InstantField, IntField, TextField, UuidField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export class CreateAppointmentRequest {
  @UuidField()
  clientId: string;

  @UuidField()
  serviceId: string;

  @UuidField()
  fitterId: string;

  @UuidField()
  roomId: string;

  @InstantField({ description: "The end follows from the service's duration." })
  startsAt: string;
}

export class MoveAppointmentRequest {
  @IntField({ min: 1, max: 2_147_483_647, description: 'The version the change was made from.', example: 1 })
  version: number;

  @InstantField()
  startsAt: string;

  @UuidField({ optional: true })
  fitterId?: string;

  @UuidField({ optional: true })
  roomId?: string;
}

export class CancelAppointmentRequest {
  @IntField({ min: 1, max: 2_147_483_647, example: 1 })
  version: number;

  @TextField({ max: 500, example: 'The client is ill.' })
  reason: string;
}

export class ListAppointmentsQuery extends PageQuery {
  @InstantField({ description: 'Appointments that end after this instant …' })
  from: string;

  @InstantField({ description: '… and begin before this one.', example: '2026-03-03T09:00:00Z' })
  to: string;
}

export class AppointmentResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ format: 'uuid' })
  serviceId: string;

  @ApiProperty({ format: 'uuid' })
  fitterId: string;

  @ApiProperty({ format: 'uuid' })
  roomId: string;

  @ApiProperty({ format: 'date-time' })
  startsAt: string;

  @ApiProperty({ format: 'date-time' })
  endsAt: string;

  @ApiProperty({ enum: appointmentStates })
  state: AppointmentState;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class AppointmentPage {
  @ApiProperty({ type: [AppointmentResponse] })
  items: AppointmentResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
