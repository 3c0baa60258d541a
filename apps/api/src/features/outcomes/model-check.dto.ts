import { ApiProperty } from '@nestjs/swagger';
import { IntField, NumberField, TextField } from '../../http/fields.js';
import { IntervalResponse } from './review.dto.js';

export const pitchBands = ['all', 'below_0', 'from_0_to_10', 'from_10_to_20', 'from_20'] as const;
export type PitchBand = (typeof pitchBands)[number];

export class LimitResponse {
  @ApiProperty()
  value: number;

  @ApiProperty()
  interval95: IntervalResponse;
}

export class AgreementResponse {
  @ApiProperty({ enum: pitchBands, description: 'Foot pitch, degrees; toe-down positive.' })
  footPitch: PitchBand;

  @ApiProperty({ example: 'limits of agreement, exact intervals' })
  method: string;

  @ApiProperty({ description: 'Sessions with a plan carried out.' })
  n: number;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Left minus computed by the formula, mm; positive: left higher than computed.',
    example: 1.2,
  })
  biasMm: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true })
  biasInterval95Mm: IntervalResponse | null;

  @ApiProperty({
    type: LimitResponse,
    nullable: true,
    description: '95 % of the differences are not below.',
  })
  lowerLimitMm: LimitResponse | null;

  @ApiProperty({ type: LimitResponse, nullable: true })
  upperLimitMm: LimitResponse | null;

  @ApiProperty({
    example:
      'In 40 sessions the saddle was left +1.2 mm from what was computed (95 % interval +0.6 to +1.8); 95 % lie within −2.5 to +4.9 mm.',
  })
  sentence: string;
}

export class SaddleOffsetResponse {
  @ApiProperty({ description: '0 before the first.' })
  version: number;

  @ApiProperty({ description: 'Added to every computed saddle change; positive is higher.', example: 1 })
  offsetMm: number;

  @ApiProperty({
    example: 'Our saddles come to lie a millimetre higher than computed.',
    type: String,
    nullable: true,
  })
  because: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  appliedBy: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  appliedAt: string | null;
}

export class SuggestedOffsetResponse {
  @ApiProperty({ example: 1 })
  offsetMm: number;

  @ApiProperty({
    example:
      'In 40 sessions the saddle was left +1.2 mm from the formula, with 95 % confidence by +0.6 to +1.8 mm; the offset in force is 0.0 mm.',
  })
  because: string;
}

export class ModelCheckResponse {
  @ApiProperty({ description: 'All sessions.' })
  overall: AgreementResponse;

  @ApiProperty({ type: [AgreementResponse], description: 'The same by foot pitch.' })
  byFootPitch: AgreementResponse[];

  @ApiProperty()
  inForce: SaddleOffsetResponse;

  @ApiProperty({
    type: SuggestedOffsetResponse,
    nullable: true,
    description: 'Where the bias is beyond its error; nothing is changed until the owner says so.',
  })
  suggested: SuggestedOffsetResponse | null;

  @ApiProperty({ example: 'A saddle moved for another reason too counts as the formula’s error.' })
  caution: string;
}

export class ApplyOffsetRequest {
  @NumberField({ min: -30, max: 30, description: '0 takes it back.', example: 1 })
  offsetMm: number;

  @TextField({ max: 1000, example: 'Our saddles come to lie a millimetre higher than computed.' })
  because: string;

  @IntField({
    min: 0,
    max: 1_000_000,
    description: 'The version that was in force when this was decided.',
    example: 0,
  })
  replacesVersion: number;
}
