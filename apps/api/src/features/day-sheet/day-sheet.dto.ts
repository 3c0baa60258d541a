import { ApiProperty } from '@nestjs/swagger';
import { deskNotices, type DeskNotice } from '@studio/clinical-flags';
import { appointmentStates, type AppointmentState } from '@studio/database';
import { TaskResponse } from '../tasks/index.js';
import { DayField, UuidField } from '../../http/fields.js';

export const visitTasks = [
  'take_intake',
  'call_client',
  'await_clearance',
  'take_consent',
  'ask_after_referral',
] as const;
export type VisitTask = (typeof visitTasks)[number];
export const visitNotices = [...deskNotices, 'not_screened'] as const;
export type VisitNotice = DeskNotice | 'not_screened';

export class DaySheetQuery {
  @DayField({ description: 'By the clock of the site, or of the studio.', example: '2026-03-02' })
  day: string;

  @UuidField({ optional: true, description: 'Only what happens at this site.' })
  siteId?: string;
}

export class NamedResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Fit bay' })
  name: string;
}

export class SheetClientResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Marta Ferreira' })
  name: string;

  @ApiProperty({ type: String, nullable: true, example: '+4520123456' })
  phone: string | null;
}

export class SheetVisitResponse {
  @ApiProperty({ format: 'uuid' })
  appointmentId: string;

  @ApiProperty({ format: 'date-time' })
  startsAt: string;

  @ApiProperty({ format: 'date-time' })
  endsAt: string;

  @ApiProperty({ example: '2026-03-02T10:00:00+01:00[Europe/Copenhagen]' })
  localStart: string;

  @ApiProperty({ example: '2026-03-02T11:00:00+01:00[Europe/Copenhagen]' })
  localEnd: string;

  @ApiProperty({ enum: appointmentStates })
  state: AppointmentState;

  @ApiProperty({ type: SheetClientResponse })
  client: SheetClientResponse;

  @ApiProperty({ type: NamedResponse })
  service: NamedResponse;

  @ApiProperty({ type: NamedResponse })
  fitter: NamedResponse;

  @ApiProperty({ type: NamedResponse })
  room: NamedResponse;

  @ApiProperty({ enum: ['missing', 'taken'] })
  intake: 'missing' | 'taken';

  @ApiProperty({
    enum: visitNotices,
    description: 'The permission in force, as the front desk is told it: never an answer or a finding.',
  })
  permission: VisitNotice;

  @ApiProperty({ enum: visitTasks, isArray: true, description: 'What is to be done before the visit.' })
  tasks: VisitTask[];
}

export class SheetGroupResponse extends NamedResponse {
  @ApiProperty({ type: [String], format: 'uuid', description: 'Visits in order of time.' })
  appointmentIds: string[];
}

export class SheetBenchResponse {
  @ApiProperty({ type: NamedResponse })
  bench: NamedResponse;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'The visit it was done in.' })
  appointmentId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'The case, once there is one.' })
  shoeWorkId: string | null;

  @ApiProperty({ example: 'Marta Ferreira' })
  clientName: string;

  @ApiProperty({ example: '2026-03-02T18:00:00+01:00[Europe/Copenhagen]' })
  localReady: string;
}

export class DaySheetResponse {
  @ApiProperty({ format: 'date' })
  day: string;

  @ApiProperty({ example: 'Harbour Lane Fitting' })
  studio: string;

  @ApiProperty({ example: 'Europe/Copenhagen' })
  timeZone: string;

  @ApiProperty({ type: [SheetVisitResponse], description: 'In order of time; cancelled ones left out.' })
  visits: SheetVisitResponse[];

  @ApiProperty({ type: [SheetGroupResponse], description: 'Every room, those without a visit too.' })
  rooms: SheetGroupResponse[];

  @ApiProperty({ type: [SheetGroupResponse], description: 'Every fitter, those without a visit too.' })
  fitters: SheetGroupResponse[];

  @ApiProperty({
    type: [TaskResponse],
    description: 'Open in the inboxes of who asks, and due by the end of the day; a hundred at most.',
  })
  openTasks: TaskResponse[];

  @ApiProperty({ type: [SheetBenchResponse], description: 'What lies on a bench in the course of the day.' })
  benches: SheetBenchResponse[];
}
