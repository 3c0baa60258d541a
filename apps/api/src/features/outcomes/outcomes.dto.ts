import { ApiProperty } from '@nestjs/swagger';
import { PageQuery } from '../../http/paging.js';

export const measures = [
  'pain',
  'comfort',
  'power_20_min_w',
  'saddle_change_left_minus_predicted_mm',
] as const;
export type Measure = (typeof measures)[number];

export class IntervalResponse {
  @ApiProperty({ example: -4.1 })
  low: number;

  @ApiProperty({ example: -2.3 })
  high: number;
}

export class MeasureChangeResponse {
  @ApiProperty({ enum: measures })
  measure: Measure;

  @ApiProperty({ example: 'paired mean difference, t interval' })
  method: string;

  @ApiProperty({ description: 'Clients with both values.', example: 14 })
  n: number;

  @ApiProperty({ description: 'Clients of the group without.', example: 3 })
  missing: number;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'After minus before; positive is more.',
    example: -3.2,
  })
  meanChange: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true, description: '95 % interval of the mean change.' })
  interval95: IntervalResponse | null;

  @ApiProperty({
    example: 'Pain fell by 3.2 points (95 % interval 2.3 to 4.1; 14 of 17 answered).',
    description: 'The same in one sentence.',
  })
  sentence: string;
}

export class NumbnessChangeResponse {
  @ApiProperty({ description: 'Known before and after.', example: 12 })
  n: number;

  @ApiProperty({ example: 5 })
  missing: number;

  @ApiProperty({ example: 9 })
  gone: number;

  @ApiProperty({ example: 1 })
  stayed: number;

  @ApiProperty({ example: 0 })
  appeared: number;

  @ApiProperty({ example: 2 })
  never: number;
}

export class OutcomeReviewResponse {
  @ApiProperty({ description: 'Signed sessions of which a follow-up has come due.', example: 17 })
  sessions: number;

  @ApiProperty({ description: 'Of these, with at least one answer.', example: 14 })
  answered: number;

  @ApiProperty({ description: 'Of these, without any answer; counted, never dropped.', example: 3 })
  missing: number;

  @ApiProperty({ type: [MeasureChangeResponse] })
  measures: MeasureChangeResponse[];

  @ApiProperty()
  numbness: NumbnessChangeResponse;
}

export class OutcomeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ format: 'date-time' })
  computedAt: string;

  @ApiProperty({ example: 6, type: 'integer', nullable: true })
  painBefore: number | null;

  @ApiProperty({ example: 2, type: 'integer', nullable: true })
  painAfter: number | null;

  @ApiProperty({ example: 45, type: 'integer', nullable: true })
  comfortBefore: number | null;

  @ApiProperty({ example: 80, type: 'integer', nullable: true })
  comfortAfter: number | null;

  @ApiProperty({ example: true, type: Boolean, nullable: true })
  numbnessBefore: boolean | null;

  @ApiProperty({ example: false, type: Boolean, nullable: true })
  numbnessAfter: boolean | null;

  @ApiProperty({ example: 262, type: Number, nullable: true })
  power20MinBeforeW: number | null;

  @ApiProperty({ example: 259, type: Number, nullable: true })
  power20MinAfterW: number | null;

  @ApiProperty({
    example: -17.6,
    type: Number,
    nullable: true,
    description: 'Of the chosen cleat option; negative is lower.',
  })
  saddleChangePredictedMm: number | null;

  @ApiProperty({
    example: -15,
    type: Number,
    nullable: true,
    description: 'Between the position found and left.',
  })
  saddleChangeLeftMm: number | null;
}

export class ListOutcomesQuery extends PageQuery {}

export class OutcomePage {
  @ApiProperty({ type: [OutcomeResponse] })
  items: OutcomeResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
