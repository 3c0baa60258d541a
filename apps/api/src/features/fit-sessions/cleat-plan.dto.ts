import { ApiProperty } from '@nestjs/swagger';
import { cleatWays, type CleatPlan } from '@studio/fit-math';
import { EnumField, TextField } from '../../http/fields.js';

const wayIds = cleatWays.map(({ id }) => id);

export class PlanCleatRequest {
  @EnumField(['left', 'right'] as const)
  side: 'left' | 'right';
}

export class ChooseOptionRequest {
  @EnumField(wayIds, { example: 'rear_plate_24' })
  way: string;

  @TextField({ max: 1000, example: 'Most of the effect without cutting the sole.' })
  because: string;
}

export class CautionResponse {
  @ApiProperty({ example: 'foot-pitch-drifts' })
  code: string;

  @ApiProperty({ example: 'The foot pitch may drift after the change: measure again at the follow-up.' })
  text: string;
}

export class UncertainResponse {
  @ApiProperty({ example: -17.6 })
  value: number;

  @ApiProperty({ description: 'Standard deviation; twice it covers about 95 %.', example: 1.4 })
  sd: number;
}

export class StraightestResponse {
  @ApiProperty({ description: '0 is a straight leg.', example: 35 })
  kneeFlexionDeg: number;

  @ApiProperty({ description: '0 is top, 180 bottom dead centre.', example: 164.5 })
  crankDeg: number;
}

export class CleatOptionResponse {
  @ApiProperty({ enum: wayIds })
  way: string;

  @ApiProperty({ example: true, description: 'Whether this shoe can take it.' })
  feasible: boolean;

  @ApiProperty({ type: [CautionResponse], description: 'Why not.' })
  reasons: readonly CautionResponse[];

  @ApiProperty({ example: 173 })
  cleatFromHeelMm: number;

  @ApiProperty({ example: 27 })
  movesBackMm: number;

  @ApiProperty({ example: 32 })
  behindMth1Mm: number;

  @ApiProperty({ description: 'In front of the midfoot line; 0 on it.', example: 28 })
  shortOfMidfootMm: number;

  @ApiProperty({ description: 'Along the seat tube, negative is lower.' })
  saddleHeightChangeMm: UncertainResponse;

  @ApiProperty({
    description: "The same with the studio's own offset added: what to expect.",
    example: -16.6,
  })
  expectedSaddleHeightChangeMm: number;

  @ApiProperty({ description: 'Vertical, negative is lower; keeps the drop from saddle to bars.' })
  barHeightChangeMm: UncertainResponse;

  @ApiProperty()
  straightestAfter: StraightestResponse;

  @ApiProperty({
    type: StraightestResponse,
    nullable: true,
    description: 'If the saddle stayed; null: the leg would not reach.',
  })
  straightestWithSaddleKept: StraightestResponse | null;

  @ApiProperty({ description: "How much of the calf's holding load is left, as a ratio.", example: 0.81 })
  ankleMomentRatio: number;

  @ApiProperty({ type: [CautionResponse] })
  cautions: readonly CautionResponse[];
}

export class CleatNowResponse {
  @ApiProperty({ example: 5 })
  behindMth1Mm: number;

  @ApiProperty({ example: 55 })
  shortOfMidfootMm: number;
}

export class CleatPlanResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: ['left', 'right'] })
  side: 'left' | 'right';

  @ApiProperty({ example: '1.1.0' })
  formulaVersion: string;

  @ApiProperty({ description: "The studio's own offset in force when the plan was made.", example: 1 })
  saddleOffsetMm: number;

  @ApiProperty({ description: "Half the shoe's length.", example: 145 })
  midfootFromHeelMm: number;

  @ApiProperty()
  now: CleatNowResponse;

  @ApiProperty({ type: [CleatOptionResponse] })
  options: readonly CleatOptionResponse[];

  @ApiProperty({ example: 'rear_plate_24', type: String, nullable: true })
  chosenWay: string | null;

  @ApiProperty({ example: 'Most of the effect, and it can be undone.', type: String, nullable: true })
  chosenBecause: string | null;
}

export interface CleatPlanRecord {
  id: string;
  side: 'left' | 'right';
  result: CleatPlan;
  saddleOffsetMm: number;
  chosenWay: string | null;
  chosenBecause: string | null;
}

export function toCleatPlan({
  id,
  side,
  result,
  saddleOffsetMm,
  chosenWay,
  chosenBecause,
}: CleatPlanRecord): CleatPlanResponse {
  const options = result.options.map((option) => ({
    ...option,
    expectedSaddleHeightChangeMm: option.saddleHeightChangeMm.value + saddleOffsetMm,
  }));
  return { id, side, ...result, options, saddleOffsetMm, chosenWay, chosenBecause };
}
