import { ApiProperty } from '@nestjs/swagger';
import { adviceStages, sheetLanguages, type AdviceStage, type SheetLanguage } from '@studio/fit-sheet';
import { ArrayMaxSize, ArrayMinSize, IsArray, Length } from 'class-validator';
import { TextField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { MissingResponse } from './flow.dto.js';

const stageIds = adviceStages.map(({ id }) => id);

export class AdviceRequest {
  @ApiProperty({
    type: [String],
    minItems: 1,
    maxItems: 20,
    description: "In the rider's language, one thing each, up to 500 characters.",
    example: ['Ride short and easy for two weeks.', 'Have the cleat bolts tightened after the first ride.'],
  })
  @Length(1, 500, { each: true, message: 'must be texts of 1 to 500 characters' })
  @ArrayMaxSize(20)
  @ArrayMinSize(1)
  @IsArray()
  items: string[];
}

export class AdviceResponse {
  @ApiProperty({ enum: stageIds, description: 'By the cleat that was moved farthest.' })
  stage: AdviceStage['id'];

  @ApiProperty({ description: 'Version of the stages and their texts.', example: 1 })
  adviceVersion: number;

  @ApiProperty({ enum: sheetLanguages, description: 'What the rider reads.' })
  language: SheetLanguage;

  @ApiProperty({ type: [String], example: ['Ride short and easy for two weeks.'] })
  items: readonly string[];

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Null: as it is suggested. Until it is written it follows the position as left.',
  })
  writtenBy: string | null;

  @ApiProperty({ description: 'Grows with every change; 1 is the suggestion.', example: 1 })
  version: number;
}

export class DefaultPlanResponse {
  @ApiProperty({ example: 'large-cleat-change' })
  id: string;

  @ApiProperty({ example: 1 })
  version: number;

  @ApiProperty({ example: 'Large cleat change' })
  name: string;
}

export class BeforeSigningResponse {
  @ApiProperty({
    type: [MissingResponse],
    description: 'What it still waits for, in the order of the visit; empty when it may be signed, or is.',
  })
  missing: MissingResponse[];

  @ApiProperty({ type: AdviceResponse })
  advice: AdviceResponse;

  @ApiProperty({
    type: DefaultPlanResponse,
    description: 'Followed up by this plan unless another is named; by the cleat that was moved farthest.',
  })
  followUpPlan: DefaultPlanResponse;
}

export class SignSessionRequest {
  @TextField({
    optional: true,
    max: 40,
    description: 'The follow-up plan; the one for the size of the change when absent.',
    example: 'large-cleat-change',
  })
  followUpPlanId?: string;
}

export class AmendmentRequest {
  @Marked('medical')
  @TextField({ max: 4000, example: 'Setback was read from the wrong mark: 58 mm, not 62 mm.' })
  text: string;
}

export class AmendmentResponse extends AmendmentRequest {
  @ApiProperty({ format: 'uuid', description: 'Its signature names it.' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  writtenBy: string;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;
}
