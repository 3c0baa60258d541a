import { ApiProperty } from '@nestjs/swagger';
import {
  measurementKindIds,
  measuringMethods,
  units,
  type MeasurementKindId,
  type MeasuringMethod,
  type Unit,
} from '@studio/fit-math';
import { followUpStates } from '@studio/follow-up-plans';
import {
  BooleanField,
  EnumField,
  IntField,
  NumberField,
  NumberListField,
  TextField,
  UuidField,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { CleatPlanResponse } from './cleat-plan.dto.js';
import { PositionResponse } from './positions.dto.js';

export const sides = ['left', 'right'] as const;
export type Side = (typeof sides)[number];

export class OpenSessionRequest {
  @UuidField()
  clientId: string;

  @UuidField()
  bikeId: string;

  @UuidField()
  shoeId: string;

  @UuidField({ optional: true })
  appointmentId?: string;
}

export class ListSessionsQuery extends PageQuery {
  @UuidField({ description: 'Whose sessions.' })
  clientId: string;
}

export class BaselineRequest {
  @IntField({
    min: 0,
    max: 10,
    nullable: true,
    description: 'Worst pain on the bike in the last week, 0–10.',
    example: 6,
  })
  pain: number | null;

  @IntField({
    min: 0,
    max: 100,
    nullable: true,
    description: 'Comfort on the bike, 0 (worst) to 100.',
    example: 45,
  })
  comfort: number | null;

  @BooleanField({ nullable: true, description: 'Numb feet on the bike.', example: true })
  numbness: boolean | null;

  @NumberField({
    min: 20,
    max: 700,
    nullable: true,
    description: 'Best 20-minute power, watts.',
    example: 262,
  })
  power20MinW: number | null;
}

export class MeasurementRequest {
  @EnumField(measurementKindIds, { example: 'thigh_length' })
  kind: MeasurementKindId;

  @EnumField(sides, { optional: true, description: 'For kinds that have sides.' })
  side?: Side;

  @EnumField(measuringMethods)
  method: MeasuringMethod;

  @NumberListField({
    minItems: 1,
    maxItems: 5,
    min: -10_000,
    max: 10_000,
    description: 'Readings as typed, one to five.',
    example: [41.2, 41.6],
  })
  repeats: number[];

  @EnumField(units, { example: 'cm' })
  unit: Unit;
}

export class MeasurementResponse extends MeasurementRequest {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ description: 'Mean of the readings, mm or degrees.', example: 414 })
  mean: number;

  @ApiProperty({ description: 'Standard error of the mean, same unit.', example: 5.7 })
  error: number;

  @ApiProperty({
    example: 'Longer than 99 of 100 adults: measure again.',
    type: String,
    nullable: true,
    description: 'Why the value is implausible.',
  })
  warning: string | null;
}

export class AmendmentRequest {
  @TextField({ max: 4000, example: 'Setback was read from the wrong mark: 58 mm, not 62 mm.' })
  text: string;
}

export class AmendmentResponse extends AmendmentRequest {
  @ApiProperty({ format: 'uuid' })
  writtenBy: string;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;
}

export class FollowUpResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 2 })
  week: number;

  @ApiProperty({ format: 'date-time', description: "Nine in the morning of the studio's local time." })
  dueAt: string;

  @ApiProperty({ enum: followUpStates })
  state: string;
}

export class FitSessionResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ format: 'uuid' })
  bikeId: string;

  @ApiProperty({ format: 'uuid' })
  shoeId: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  appointmentId: string | null;

  @ApiProperty({ format: 'uuid' })
  fitterId: string;

  @ApiProperty({ format: 'uuid', description: 'The screening that allowed it.' })
  screeningId: string;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  signedAt: string | null;

  @ApiProperty({
    example: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    type: String,
    nullable: true,
    description: 'SHA-256 over the record as signed (canonical JSON, RFC 8785).',
  })
  contentHash: string | null;

  @ApiProperty({ type: BaselineRequest, nullable: true })
  baseline: BaselineRequest | null;

  @ApiProperty({ type: [MeasurementResponse] })
  measurements: MeasurementResponse[];

  @ApiProperty({ type: [PositionResponse], description: 'The standing version of each stage.' })
  positions: PositionResponse[];

  @ApiProperty({ type: [CleatPlanResponse] })
  cleatPlans: CleatPlanResponse[];

  @ApiProperty({ type: [AmendmentResponse] })
  amendments: AmendmentResponse[];

  @ApiProperty({ type: [FollowUpResponse] })
  followUps: FollowUpResponse[];
}

export class FitSessionLine {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  bikeId: string;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  signedAt: string | null;
}

export class FitSessionPage {
  @ApiProperty({ type: [FitSessionLine] })
  items: FitSessionLine[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
