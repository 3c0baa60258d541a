import { ApiProperty } from '@nestjs/swagger';
import { followUpStates, mayBecome, type FollowUpState, type PlanStep } from '@studio/follow-up-plans';
import type { FollowUp, FollowUpChange } from '@studio/database';
import { BooleanField, DayField, MapField, TextField, UuidField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { PageQuery } from '../../http/paging.js';
import { QuestionSetResponse } from '../screenings/index.js';
import { PlanStepFields, stepFields } from './plans.dto.js';
import type { Ride } from './rides.queries.js';

export class GivenAnswerResponse {
  @ApiProperty({ example: 'comfort', description: 'The question’s id, or `id@site`.' })
  question: string;

  @ApiProperty({ example: 'How comfortable are you on the bike now?' })
  text: string;

  @ApiProperty({ example: '75 of 100' })
  answer: string;
}

export class ListFollowUpsQuery extends PageQuery {}

export class ChoosePlanRequest {
  @TextField({ max: 40, description: 'A plan built in or of the studio’s own.', example: 'shoe-work' })
  planId: string;

  @BooleanField({
    optional: true,
    description: 'Besides what is promised (true), or in place of it (false, and when absent).',
    example: true,
  })
  besides?: boolean;

  @UuidField({
    optional: true,
    description:
      'A visit of the client that the plan counts from instead of the session, such as the one at which the shoes are ' +
      'collected. When the visit is moved the follow-ups move with it; called off, they wait for one.',
  })
  fromAppointmentId?: string;

  @TextField({ max: 500, example: 'The soles were drilled after the session.' })
  because: string;
}

export class MoveFollowUpRequest {
  @DayField({ description: 'It is due as its window opens on that day.', example: '2026-05-04' })
  dueOn: string;

  @TextField({ max: 500, example: 'Away without the bike until then.' })
  because: string;
}

export class SkipFollowUpRequest {
  @TextField({ max: 500, example: 'Came by and told us everything.' })
  because: string;
}

export class AddFollowUpRequest {
  @UuidField({ description: 'The signed session it is about.' })
  fitSessionId: string;

  @DayField({ example: '2026-07-01' })
  dueOn: string;

  @TextField({ max: 500, example: 'Before the season’s first race.' })
  because: string;
}

export class FollowUpChangeResponse {
  @ApiProperty({ enum: ['move', 'skip', 'add', 'plan', 'appointment', 'consent'] })
  kind: string;

  @ApiProperty({ type: String, nullable: true, example: 'Away without the bike until then.' })
  because: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  dueBefore: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  dueAfter: string | null;

  @ApiProperty({ enum: followUpStates })
  state: FollowUpState;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'Null: it followed by itself.' })
  changedBy: string | null;

  @ApiProperty({ format: 'date-time' })
  changedAt: string;

  static of(row: FollowUpChange): FollowUpChangeResponse {
    return {
      kind: row.kind,
      because: row.reason,
      dueBefore: row.dueBefore?.toISOString() ?? null,
      dueAfter: row.dueAfter?.toISOString() ?? null,
      state: row.stateAfter,
      changedBy: row.changedBy,
      changedAt: row.createdAt.toISOString(),
    };
  }
}

/** When it is asked and how far that is; nothing of what was answered. */
export class FollowUpLineResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({
    type: String,
    nullable: true,
    example: 'large-cleat-change',
    description: 'Null: added by hand.',
  })
  planId: string | null;

  @ApiProperty({ type: Number, nullable: true, example: 1 })
  planVersion: number | null;

  @ApiProperty({ description: 'As it was promised.' })
  step: PlanStepFields;

  @ApiProperty({ example: 14, description: 'Days after the session, or after the visit it counts from.' })
  daysAfter: number;

  @ApiProperty({ format: 'date-time' })
  dueAt: string;

  @ApiProperty({ enum: followUpStates })
  state: FollowUpState;

  @ApiProperty({
    type: String,
    nullable: true,
    example: 'no_consent',
    description: 'Why nobody was asked, or by phone only.',
  })
  stateReason: string | null;

  @ApiProperty({ enum: ['move', 'skip'], isArray: true, example: ['move', 'skip'] })
  allowed: ('move' | 'skip')[];

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  sentAt: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  remindedAt: string | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'When somebody was told to phone.',
  })
  phonedAt: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true, description: 'When it was given up.' })
  closedAt: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  answeredAt: string | null;

  @ApiProperty({ example: 1 })
  version: number;
}

export class FollowUpPage {
  @ApiProperty({ type: [FollowUpLineResponse] })
  items: FollowUpLineResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

/** A recording the client sent; the file itself is among the client's files. */
export class SentRideResponse {
  @ApiProperty({ format: 'uuid' })
  fileId: string;

  @ApiProperty({ example: 'evening-loop.fit' })
  fileName: string;

  @ApiProperty({ enum: ['fit', 'tcx', 'gpx', 'csv'] })
  format: Ride['format'];

  @ApiProperty({ format: 'date-time', description: 'By the clock of the device.' })
  startedAt: string;

  @ApiProperty({ example: 5400 })
  durationS: number;

  @ApiProperty({
    type: Number,
    nullable: true,
    example: 251.4,
    description: 'Best 20 minutes without a stop, watts. It counts where the client told less, or nothing.',
  })
  power20MinW: number | null;

  @ApiProperty({ example: 'Best 20 minutes: 251 W from 0:31:36 on; power known for 100 % of them.' })
  power20MinWords: string;

  @ApiProperty({ type: Number, nullable: true, example: 812, description: 'Highest second, watts.' })
  sprintPeakW: number | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    example: 774,
    description: 'Highest five seconds in a row, watts.',
  })
  sprint5sW: number | null;

  @ApiProperty({
    type: [String],
    example: ['3 seconds hold power no rider makes.'],
    description: 'What to know of the recording.',
  })
  notes: string[];

  static of({ fileId, fileName, format, startedAt, durationS, ...read }: Ride): SentRideResponse {
    const { power20MinW, power20MinWords, sprintPeakW, sprint5sW, notes } = read;
    return {
      ...{ fileId, fileName, format, startedAt: startedAt.toISOString(), durationS },
      ...{ power20MinW, power20MinWords, sprintPeakW, sprint5sW, notes },
    };
  }
}

/** With what was answered; for those who fit. */
export class FollowUpDetailResponse extends FollowUpLineResponse {
  @ApiProperty({ description: 'What it asks, as its client is asked.' })
  questions: QuestionSetResponse;

  @Marked('medical')
  @ApiProperty({ type: [GivenAnswerResponse], description: 'In the order they were asked.' })
  answers: GivenAnswerResponse[];

  @ApiProperty({ type: SentRideResponse, nullable: true })
  ride: SentRideResponse | null;
}

export class PhoneAnswersRequest {
  @MapField({
    description: 'What the client said on the phone, as answers to the questions.',
    example: { anything_new: 'no', complaint_sites: [], pain: 2, overall_change: '3' },
  })
  answers: Record<string, unknown>;
}

export const toLine = (row: FollowUp): FollowUpLineResponse => ({
  id: row.id,
  fitSessionId: row.fitSessionId,
  clientId: row.clientId,
  planId: row.planId,
  planVersion: row.planVersion,
  step: stepFields(row.step as PlanStep),
  daysAfter: row.daysAfter,
  dueAt: row.dueAt.toISOString(),
  state: row.state,
  stateReason: row.stateReason,
  allowed: mayBecome(row.state, 'skipped')
    ? ['move', 'skip']
    : mayBecome(row.state, 'scheduled')
      ? ['move']
      : [],
  sentAt: row.sentAt?.toISOString() ?? null,
  remindedAt: row.remindedAt?.toISOString() ?? null,
  phonedAt: row.phonedAt?.toISOString() ?? null,
  closedAt: row.closedAt?.toISOString() ?? null,
  answeredAt: row.answeredAt?.toISOString() ?? null,
  version: row.version,
});
