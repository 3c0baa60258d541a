import { ApiProperty } from '@nestjs/swagger';
import { appointmentStates, cancellers, type AppointmentState, type Canceller } from '@studio/database';
import {
  BooleanField,
  EnumField,
  InstantField,
  IntField,
  NestedListField,
  TextField,
  UuidField,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { actionNames, type AppointmentAction } from './appointment-actions.js';

const even = {
  optional: true,
  description: 'Book it though it lies outside hours, lead time or horizon.',
  example: false,
} as const;

const tell = {
  optional: true,
  description:
    'False: the client gets no message about this. Reminders come all the same, as the settings of the studio have it.',
  example: true,
} as const;

export class VisitRequest {
  @UuidField()
  serviceId: string;

  @UuidField()
  fitterId: string;

  @UuidField()
  roomId: string;

  @UuidField({
    optional: true,
    description: 'For a service that cures; any that is free at the same site when absent.',
  })
  benchId?: string;

  @InstantField({ description: "The end follows from the service's duration." })
  startsAt: string;

  @BooleanField(even)
  evenOutsideHours?: boolean;
}

export class CreateAppointmentRequest extends VisitRequest {
  @UuidField()
  clientId: string;

  @IntField({
    optional: true,
    min: 1,
    max: 120,
    description: 'Only hold the time; it is free again after so many minutes unless it is booked.',
    example: 10,
  })
  holdMinutes?: number;

  @BooleanField(tell)
  tellClient?: boolean;
}

export class CreateSeriesRequest {
  @UuidField()
  clientId: string;

  @NestedListField(() => VisitRequest, {
    min: 2,
    max: 12,
    description:
      'In order; each begins when the one before is over, its curing included. All or none is booked.',
  })
  visits: VisitRequest[];

  @BooleanField(tell)
  tellClient?: boolean;
}

export class MoveAppointmentRequest {
  @InstantField()
  startsAt: string;

  @UuidField({ optional: true })
  fitterId?: string;

  @UuidField({ optional: true })
  roomId?: string;

  @UuidField({ optional: true, description: 'The bench it has stays when absent, if it is free.' })
  benchId?: string;

  @BooleanField(even)
  evenOutsideHours?: boolean;

  @BooleanField(tell)
  tellClient?: boolean;
}

export class CancelAppointmentRequest {
  @TextField({ max: 500, example: 'The client is ill.' })
  reason: string;

  @EnumField(cancellers, { optional: true, description: 'Who called it off (the client when absent).' })
  by?: Canceller;

  @BooleanField(tell)
  tellClient?: boolean;
}

export class ListAppointmentsQuery extends PageQuery {
  @InstantField({ description: 'Appointments that end after this instant …' })
  from: string;

  @InstantField({ description: '… and begin before this one.', example: '2026-03-03T09:00:00Z' })
  to: string;

  @UuidField({ optional: true })
  fitterId?: string;

  @UuidField({ optional: true })
  roomId?: string;

  @UuidField({ optional: true })
  clientId?: string;
}

export class CancellationResponse {
  @ApiProperty({ example: 'The client is ill.' })
  reason: string;

  @ApiProperty({ enum: cancellers })
  by: Canceller;

  @ApiProperty({ description: 'Later than the notice the service asks for.' })
  late: boolean;
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

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  benchId: string | null;

  @ApiProperty({ format: 'date-time' })
  startsAt: string;

  @ApiProperty({ format: 'date-time' })
  endsAt: string;

  @ApiProperty({
    description: 'RFC 9557, by the clock of the place.',
    example: '2026-03-02T10:00:00+01:00[Europe/Copenhagen]',
  })
  localStart: string;

  @ApiProperty({ example: '2026-03-02T11:00:00+01:00[Europe/Copenhagen]' })
  localEnd: string;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'When what cures is ready.',
  })
  curedAt: string | null;

  @ApiProperty({ enum: appointmentStates })
  state: AppointmentState;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'A hold ends then.' })
  heldUntil: string | null;

  @ApiProperty({ type: CancellationResponse, nullable: true })
  cancellation: CancellationResponse | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  seriesId: string | null;

  @ApiProperty({ type: 'integer', nullable: true, example: 1 })
  seriesPosition: number | null;

  @ApiProperty({ enum: actionNames, isArray: true, description: 'What the state allows.' })
  allowed: AppointmentAction[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class AppointmentPage {
  @ApiProperty({ type: [AppointmentResponse] })
  items: AppointmentResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class SeriesResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ type: [AppointmentResponse], description: 'In order.' })
  visits: AppointmentResponse[];
}

export class AppointmentChangeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: ['create', 'hold', 'lapse', ...actionNames] })
  action: string;

  @ApiProperty({ enum: appointmentStates, description: 'As it stood afterwards, like all that follows.' })
  state: AppointmentState;

  @ApiProperty({ format: 'date-time' })
  startsAt: string;

  @ApiProperty({ format: 'date-time' })
  endsAt: string;

  @ApiProperty({ format: 'uuid' })
  fitterId: string;

  @ApiProperty({ format: 'uuid' })
  roomId: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  benchId: string | null;

  @ApiProperty({ example: 'The client is ill.', type: String, nullable: true })
  reason: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'Null for the system itself.' })
  changedBy: string | null;

  @ApiProperty({ format: 'date-time' })
  changedAt: string;
}
