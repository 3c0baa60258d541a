import { ApiProperty } from '@nestjs/swagger';
import {
  measurementKindIds,
  measuringMethods,
  units,
  type MeasurementKindId,
  type MeasuringMethod,
  type Unit,
} from '@studio/fit-math';
import { EnumField, InstantField, NestedListField, ReadingListField, TextField } from '../../http/fields.js';

export const sides = ['left', 'right'] as const;
export type Side = (typeof sides)[number];

export class MeasurementRequest {
  @EnumField(measurementKindIds, { example: 'thigh_length' })
  kind: MeasurementKindId;

  @EnumField(sides, { optional: true, description: 'For kinds that have sides.' })
  side?: Side;

  @EnumField(measuringMethods)
  method: MeasuringMethod;

  @ReadingListField({
    maxItems: 5,
    description:
      'Readings as typed, one to five: numbers of `unit`, or texts with their own, such as `"16 3/8 in"` or `"41,2 cm"`.',
    example: [41.2, 41.6],
  })
  repeats: (number | string)[];

  @EnumField(units, {
    optional: true,
    description: 'Of every reading that does not say its own.',
    example: 'cm',
  })
  unit?: Unit;

  @InstantField({ optional: true, description: 'When it was measured; now when absent.' })
  takenAt?: string;
}

export class MeasurementsRequest {
  @NestedListField(() => MeasurementRequest, {
    min: 1,
    max: 100,
    description: 'All are recorded, or none and each fault is named by its place.',
    example: [{ kind: 'inseam', method: 'tape', repeats: [82.4], unit: 'cm' }],
  })
  items: MeasurementRequest[];
}

export class WithdrawalRequest {
  @TextField({ max: 1000, example: 'Read from the wrong mark.' })
  reason: string;
}

export class CorrectionRequest extends MeasurementRequest {
  @TextField({ max: 1000, example: 'Read from the wrong mark.' })
  reason: string;
}

export class WithdrawalResponse {
  @ApiProperty({ format: 'date-time' })
  at: string;

  @ApiProperty({ format: 'uuid' })
  by: string;

  @ApiProperty({ example: 'Read from the wrong mark.' })
  reason: string;
}

export class MeasurementResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: [...measurementKindIds], example: 'thigh_length' })
  kind: MeasurementKindId;

  @ApiProperty({ type: String, enum: [...sides, null], nullable: true })
  side: Side | null;

  @ApiProperty({ enum: [...measuringMethods] })
  method: MeasuringMethod;

  @ApiProperty({ type: [Number], example: [41.2, 41.6], description: 'Readings in `unit`.' })
  repeats: number[];

  @ApiProperty({ enum: [...units], example: 'cm' })
  unit: Unit;

  @ApiProperty({
    type: [String],
    nullable: true,
    example: ['16 3/8 in'],
    description: 'The readings as typed, when a unit was typed with them.',
  })
  typed: string[] | null;

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

  @ApiProperty({ format: 'uuid' })
  takenBy: string;

  @ApiProperty({ format: 'date-time' })
  takenAt: string;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'The measurement it stands in place of.',
  })
  corrects: string | null;

  @ApiProperty({
    type: WithdrawalResponse,
    nullable: true,
    description: 'Why it no longer counts; null while it does.',
  })
  withdrawal: WithdrawalResponse | null;
}

export class MeasurementsResponse {
  @ApiProperty({ type: [MeasurementResponse], description: 'In the order they were sent.' })
  items: MeasurementResponse[];
}
