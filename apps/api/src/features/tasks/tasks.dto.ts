import { ApiProperty } from '@nestjs/swagger';
import {
  roles,
  taskKinds,
  taskStates,
  taskSubjects,
  type Role,
  type TaskKind,
  type TaskState,
} from '@studio/database';
import { EnumField, InstantField, UuidField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { taskActionNames, type TaskAction } from './task-actions.js';

const subjectTypes = [...new Set(Object.values(taskSubjects))];

export class ListTasksQuery extends PageQuery {
  @EnumField(taskStates, { optional: true, description: 'Only these (the open ones when absent).' })
  state?: TaskState;

  @EnumField(taskKinds, { optional: true })
  kind?: TaskKind;

  @EnumField(roles, { optional: true, description: 'Only the inbox of this role.' })
  role?: Role;

  @InstantField({ optional: true, description: 'Only what is due before this instant.' })
  dueBefore?: string;

  @UuidField({ optional: true, description: 'Only what is assigned to this person.' })
  assignedTo?: string;

  @UuidField({ optional: true })
  clientId?: string;
}

export class SnoozeTaskRequest {
  @InstantField({ description: 'Within a year; then the task is open again.' })
  until: string;
}

export class AssignTaskRequest {
  @UuidField({ nullable: true, description: 'Null: to nobody in particular.' })
  userId: string | null;
}

export class TaskClientResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Marta Ferreira' })
  name: string;

  @ApiProperty({ type: String, nullable: true, example: '+45 20 12 34 56' })
  phone: string | null;
}

export class TaskResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: taskKinds })
  kind: TaskKind;

  @ApiProperty({ enum: roles, description: 'Whose inbox it is in.' })
  role: Role;

  @ApiProperty({ enum: subjectTypes, description: 'What sort of record the task is about.' })
  subjectType: (typeof subjectTypes)[number];

  @ApiProperty({ format: 'uuid' })
  subjectId: string;

  @ApiProperty({ type: TaskClientResponse, nullable: true })
  client: TaskClientResponse | null;

  @ApiProperty({ format: 'date-time' })
  dueAt: string;

  @ApiProperty({ description: 'Not done, though due.' })
  overdue: boolean;

  @ApiProperty({ enum: taskStates, description: 'A snooze whose time has come reads `open`.' })
  state: TaskState;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  snoozedUntil: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  assignedTo: string | null;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  doneAt: string | null;

  @ApiProperty({ enum: taskActionNames, isArray: true, description: 'What the state allows.' })
  allowed: TaskAction[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class TaskPage {
  @ApiProperty({ type: [TaskResponse], description: 'The most pressing first.' })
  items: TaskResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class TaskChangeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: ['open', 'close', ...taskActionNames] })
  action: string;

  @ApiProperty({ enum: taskStates, description: 'As it stood afterwards.' })
  state: TaskState;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  snoozedUntil: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  assignedTo: string | null;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Null when the reason for the task came or went by itself.',
  })
  changedBy: string | null;

  @ApiProperty({ format: 'date-time' })
  changedAt: string;
}
