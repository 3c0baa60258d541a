import { ApiProperty } from '@nestjs/swagger';
import { activities } from '@studio/clinical-flags';
import { planKinds, type PlanKind } from '@studio/database';
import { positionFieldIds, type PositionFieldId } from '@studio/fit-math';
import { EnumField, MapField, TextField } from '../../http/fields.js';
import { CautionResponse } from '../fit-sessions/index.js';
import type { FootPitchFrom, Side } from './facts.js';
import type { PlanOption } from './plan-kind.js';
import type { PredictedAndLeft } from './predictions.js';

export class MakePlanRequest {
  @EnumField(planKinds, { example: 'crank' })
  kind: PlanKind;

  @EnumField(['left', 'right'], {
    optional: true,
    description: 'Needed for a plan worked out from one leg.',
    example: 'left',
  })
  side?: Side;

  @MapField({
    optional: true,
    description:
      'What the record does not hold of the input of the calculator that works it out: `cleat` `cleat-plans`, ' +
      '`saddle_height` `saddle-heights`, `saddle_swap` `saddle-swaps`, `setback` `knee-over-spindle`, `leg_length` ' +
      '`leg-length-options`, `crank` `crank-changes`, `transfer` `transfers`, `second_bike` `second-bikes`, `air` ' +
      '`lowering-gains`. 400 names what is lacking.',
    example: { newCrankLengthMm: 165 },
  })
  added?: Record<string, unknown>;
}

export class ChoosePlanOptionRequest {
  @TextField({ max: 100, example: 'as_computed' })
  option: string;

  @TextField({ max: 1000, example: 'The hip opens at the top, which is what pinched.' })
  because: string;
}

export class PlanOptionResponse implements PlanOption {
  @ApiProperty({ example: 'as_computed' })
  id: string;

  @ApiProperty({ example: true })
  feasible: boolean;

  @ApiProperty({ type: [CautionResponse], description: 'Why not, or what it leaves over.' })
  reasons: readonly CautionResponse[];

  @ApiProperty({
    enum: activities,
    isArray: true,
    description: 'What the screening must permit when it is chosen.',
  })
  asks: PlanOption['asks'];
}

export class PlanChoiceResponse {
  @ApiProperty({ example: 'as_computed' })
  option: string;

  @ApiProperty({ example: 'The hip opens at the top, which is what pinched.' })
  because: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  chosenBy: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  chosenAt: string | null;
}

export class FootPitchFromResponse implements FootPitchFrom {
  @ApiProperty({ enum: ['left', 'right'] })
  side: Side;

  @ApiProperty({ enum: ['motion_recording', 'measurement'] })
  kind: FootPitchFrom['kind'];

  @ApiProperty({ format: 'uuid' })
  id: string;
}

export class PlanResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ enum: planKinds })
  kind: PlanKind;

  @ApiProperty({ type: String, enum: ['left', 'right', null], nullable: true })
  side: Side | null;

  @ApiProperty({ example: '1.1.0' })
  formulaVersion: string;

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    description: 'What it was computed with.',
    example: { newCrankLengthMm: 165 },
  })
  inputs: object;

  @ApiProperty({
    type: [FootPitchFromResponse],
    description: 'Where the foot pitch among the inputs is from: captured motion where the session has some.',
  })
  footPitchFrom: FootPitchFromResponse[];

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    description: 'Which of it the fitter added.',
    example: { newCrankLengthMm: 165 },
  })
  added: object;

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    description: 'As its calculator answers.',
    example: { saddleChangeMm: { value: 7.5, sd: 0.4 } },
  })
  result: object;

  @ApiProperty({ description: "The studio's own offset in force when the plan was made.", example: 1 })
  saddleOffsetMm: number;

  @ApiProperty({ type: [PlanOptionResponse] })
  options: readonly PlanOptionResponse[];

  @ApiProperty({ type: PlanChoiceResponse, nullable: true })
  choice: PlanChoiceResponse | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  plannedBy: string | null;

  @ApiProperty({ format: 'date-time' })
  plannedAt: string;
}

export class PlanPage {
  @ApiProperty({ type: [PlanResponse] })
  items: PlanResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class PredictionResponse implements PredictedAndLeft {
  @ApiProperty({ format: 'uuid' })
  planId: string;

  @ApiProperty({ enum: planKinds })
  kind: PlanKind;

  @ApiProperty({ type: String, enum: ['left', 'right', null], nullable: true })
  side: Side | null;

  @ApiProperty({ enum: [...positionFieldIds] })
  field: PositionFieldId;

  @ApiProperty({ enum: ['mm', 'deg'] })
  unit: 'mm' | 'deg';

  @ApiProperty({ type: Number, nullable: true, description: 'Null: not measured.', example: 740 })
  found: number | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Null: a change of a figure that was not measured as found.',
    example: 724.8,
  })
  predicted: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Standard deviation.', example: 1.7 })
  predictedSd: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Null: not measured yet.', example: 725 })
  left: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Left less predicted.', example: 0.2 })
  difference: number | null;

  @ApiProperty({
    type: Boolean,
    nullable: true,
    description: 'The errors of predicting and measuring alone would give as much in 19 of 20.',
    example: true,
  })
  withinError: boolean | null;
}
