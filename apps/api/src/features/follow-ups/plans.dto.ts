import { applyDecorators } from '@nestjs/common';
import { ApiProperty } from '@nestjs/swagger';
import {
  channels,
  toldRoles,
  unansweredActions,
  type Channel,
  type FollowUpPlan,
  type Offset,
  type PlanStep,
  type ToldRole,
  type UnansweredAction,
} from '@studio/follow-up-plans';
import { Matches } from 'class-validator';
import {
  BooleanField,
  EnumField,
  IntField,
  NestedField,
  NestedListField,
  TextField,
  type FieldOptions,
} from '../../http/fields.js';

const units = ['days', 'weeks', 'months'] as const;

const NameField = (options: FieldOptions): PropertyDecorator =>
  applyDecorators(
    Matches(/^[a-z0-9]+(-[a-z0-9]+)*$/, { message: 'must be words like week-2' }),
    TextField({ ...options, max: 40 }),
  );

/** A time of day by the clock on the wall. */
const ClockField = (options: FieldOptions): PropertyDecorator =>
  applyDecorators(
    Matches(/^([01]\d|2[0-3]):[0-5]\d$/, { message: 'must be a time like 09:30' }),
    TextField({ ...options, min: 5, max: 5 }),
  );

export class OffsetFields {
  @IntField({ min: 1, max: 365, example: 2 })
  count: number;

  @EnumField(units, {
    description: 'By the calendar. From a day that a month has not, months lead to its last.',
    example: 'weeks',
  })
  unit: (typeof units)[number];
}

export class TimeWindowFields {
  @ClockField({ description: 'By the clock of the studio.', example: '09:00' })
  from: string;

  @ClockField({ example: '19:00' })
  until: string;
}

export class QuestionSetFields {
  @TextField({ max: 60, example: 'since-the-fit' })
  id: string;

  @TextField({ max: 20, example: '3' })
  version: string;
}

export class UnansweredFields {
  @IntField({ min: 1, max: 180, description: 'Days after the client was asked.', example: 4 })
  afterDays: number;

  @EnumField(unansweredActions, {
    description:
      '`remind`: the link again; `phone`: somebody is told to call; `close`: given up, and counted as missing.',
    example: 'remind',
  })
  action: UnansweredAction;
}

export class PlanStepFields {
  @NameField({ description: 'Unique within the plan.', example: 'week-2' })
  id: string;

  @NestedField(() => OffsetFields)
  after: OffsetFields;

  @NestedField(() => TimeWindowFields, { description: 'Hours within which the client is written to.' })
  window: TimeWindowFields;

  @EnumField(channels, {
    description: '`mail`: a one-time link; `phone`: somebody is told to call.',
    example: 'mail',
  })
  channel: Channel;

  @NestedField(() => QuestionSetFields)
  questionSet: QuestionSetFields;

  @NestedListField(() => UnansweredFields, {
    min: 1,
    max: 3,
    description: 'In order of time; ends with `close`.',
  })
  unanswered: UnansweredFields[];

  @EnumField(toldRoles, { description: 'Who is told to phone.', example: 'fitter' })
  tell: ToldRole;

  @BooleanField({
    description: 'False for an early look, which says nothing yet of how the change turned out.',
    example: true,
  })
  countsAsOutcome: boolean;
}

export class ChangeFollowUpPlanRequest {
  @TextField({ max: 80, example: 'After a longer crank' })
  name: string;

  @NestedListField(() => PlanStepFields, { min: 1, max: 12 })
  steps: PlanStepFields[];
}

export class CreateFollowUpPlanRequest extends ChangeFollowUpPlanRequest {
  @NameField({
    description: 'What the plan is called by; the same in all its versions.',
    example: 'crank-change',
  })
  id: string;
}

export class FollowUpPlanResponse extends CreateFollowUpPlanRequest {
  @ApiProperty({ example: 1 })
  version: number;

  @ApiProperty({ description: 'Built in plans cannot be changed.' })
  builtIn: boolean;

  static of({ id, version, name, steps }: FollowUpPlan, builtIn: boolean): FollowUpPlanResponse {
    return { id, version, name, builtIn, steps: steps.map((step) => ({ ...stepFields(step) })) };
  }
}

export function stepFields(step: PlanStep): PlanStepFields {
  const [[unit, count]] = Object.entries(step.after) as [[OffsetFields['unit'], number]];
  return {
    ...step,
    after: { unit, count },
    window: { ...step.window },
    questionSet: { ...step.questionSet },
    unanswered: [...step.unanswered],
  };
}

export const stepOf = ({ after, ...step }: PlanStepFields): PlanStep => ({
  ...step,
  after: { [after.unit]: after.count } as unknown as Offset,
});
