import { ApiProperty } from '@nestjs/swagger';
import { positionFieldIds, type PartToChange, type PositionFieldId, type SideBySide } from '@studio/fit-math';
import { EnumField, MapField, NestedField, NumberField, TextField, UuidField } from '../../http/fields.js';
import { bikeUses, type BikeUse } from '../equipment/index.js';
import { CautionResponse } from '../fit-sessions/index.js';
import type { Side } from './facts.js';
import { FootPitchFromResponse } from './plans.dto.js';

export class FirstOfPairFields {
  @UuidField({ description: 'A session of the client: its position as left, or else the newest it has.' })
  fitSessionId: string;

  @EnumField(bikeUses, { example: 'racing' })
  use: BikeUse;
}

export class SecondOfPairFields {
  @UuidField({ description: 'The same bike for two pairs of shoes.' })
  bikeId: string;

  @UuidField()
  shoeId: string;

  @EnumField(bikeUses, { example: 'long_rides' })
  use: BikeUse;

  @UuidField({ optional: true, description: 'A session in which the second was measured as it is now.' })
  fitSessionId?: string;
}

const shift = (description: string, example: number): PropertyDecorator =>
  NumberField({ min: -200, max: 200, optional: true, description, example });

export class OtherwiseFields {
  @shift('Saddle forward; negative: back.', 0) saddleForwardMm?: number;
  @shift('Saddle up.', 0) saddleUpMm?: number;
  @shift('Hoods or grips forward.', 0) gripsForwardMm?: number;
  @shift('Hoods or grips up.', 20) gripsUpMm?: number;
}

export class PairPositionsRequest {
  @NestedField(() => FirstOfPairFields)
  first: FirstOfPairFields;

  @NestedField(() => SecondOfPairFields)
  second: SecondOfPairFields;

  @NumberField({
    min: -100,
    max: 150,
    optional: true,
    description: 'How much farther back the cleat is to be on the second; negative: forward.',
    example: 24,
  })
  cleatBackMm?: number;

  @NumberField({
    min: 80,
    max: 250,
    optional: true,
    description: "On the second; its bike's own when absent.",
    example: 170,
  })
  crankLengthMm?: number;

  @NumberField({
    min: -50,
    max: 50,
    optional: true,
    description:
      'Ankle higher above the spindle, by a thicker sole or pedal. When absent: by the stack of the pedals of both bikes, ' +
      'none where one of them is not on record.',
    example: 2,
  })
  ankleHigherMm?: number;

  @EnumField(['left', 'right'], {
    optional: true,
    description: 'Whose leg the saddle is worked out with; needed where cleat, crank or sole differ.',
    example: 'right',
  })
  side?: Side;

  @NestedField(() => OtherwiseFields, {
    optional: true,
    description: 'What the other use wants otherwise, after that.',
  })
  otherwise?: OtherwiseFields;

  @MapField({
    optional: true,
    description:
      'What can be had for the second bike: of the input of `transfers` what its record does not hold: `frame` (without ' +
      'stack, reach and angles), `parts`, `toleranceMm`, `listed`. Parts on the bike count as `on it`. Left out: no build ' +
      'is looked for.',
    example: {
      frame: { seatTubeAxisAheadMm: 0, clampAlongTubeMm: { least: 600, greatest: 760 }, topCapMm: 8 },
      toleranceMm: 5,
    },
  })
  build?: Record<string, unknown>;

  @TextField({ max: 1000, example: 'Winter miles without pressure on the forefoot; racing stays as it is.' })
  because: string;
}

export class SideBySideResponse implements SideBySide {
  @ApiProperty({ enum: [...positionFieldIds] })
  field: PositionFieldId;

  @ApiProperty({ enum: ['mm', 'deg'] })
  unit: 'mm' | 'deg';

  @ApiProperty({ type: Number, nullable: true, example: 740 })
  first: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'What to set.', example: 726 })
  second: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Second less first.', example: -14 })
  difference: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'As the second is set now.', example: 731 })
  now: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'What to set less what is now.', example: -5 })
  toChange: number | null;

  @ApiProperty({
    type: Boolean,
    nullable: true,
    description: 'Measuring the same twice would give as much as `toChange` in 19 of 20.',
    example: false,
  })
  withinError: boolean | null;
}

export class PartToChangeResponse implements PartToChange {
  @ApiProperty({ enum: ['stem', 'spacers', 'bars', 'seatpost', 'cranks'] })
  part: PartToChange['part'];

  @ApiProperty({
    oneOf: [{ type: 'string' }, { type: 'number' }],
    nullable: true,
    description: '`on it`, or mm. Null: not on record.',
    example: 'on it',
  })
  now: string | number | null;

  @ApiProperty({
    oneOf: [{ type: 'string' }, { type: 'number' }],
    description: 'The id of a part that was offered, or mm.',
    example: '90 mm',
  })
  needed: string | number;
}

export class UncertainChangeResponse {
  @ApiProperty({ example: -14.2 })
  value: number;

  @ApiProperty({ description: 'Standard deviation.', example: 1.4 })
  sd: number;
}

export class BuildListResponse {
  @ApiProperty({
    type: [SideBySideResponse],
    description: 'Figure by figure, with what to set on the second.',
  })
  sideBySide: readonly SideBySideResponse[];

  @ApiProperty({
    description: 'What cleat, crank and sole ask of the saddle, along the seat tube of the first.',
  })
  saddleChangeMm: UncertainChangeResponse;

  @ApiProperty({
    type: [PartToChangeResponse],
    description: 'For the nearest build; without one, of the cranks alone.',
  })
  partsToChange: readonly PartToChangeResponse[];

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    nullable: true,
    description: 'As `transfers` answers; null where no build was looked for.',
    example: { fits: true, builds: [] },
  })
  transfer: object | null;

  @ApiProperty({ type: [CautionResponse] })
  cautions: readonly CautionResponse[];
}

export class PairedPositionResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty()
  first: FirstOfPairFields;

  @ApiProperty()
  second: SecondOfPairFields;

  @ApiProperty({ type: String, enum: ['left', 'right', null], nullable: true })
  side: Side | null;

  @ApiProperty({ example: '1.1.0' })
  formulaVersion: string;

  @ApiProperty({
    type: 'object',
    additionalProperties: true,
    description: 'What it was computed with.',
    example: { change: { cleatBackMm: 24 } },
  })
  inputs: object;

  @ApiProperty({ type: [FootPitchFromResponse] })
  footPitchFrom: readonly FootPitchFromResponse[];

  @ApiProperty()
  result: BuildListResponse;

  @ApiProperty({ example: 'Winter miles without pressure on the forefoot; racing stays as it is.' })
  because: string;

  @ApiProperty({ format: 'uuid' })
  plannedBy: string;

  @ApiProperty({ format: 'date-time' })
  plannedAt: string;
}

export class PairedPositionPage {
  @ApiProperty({ type: [PairedPositionResponse] })
  items: PairedPositionResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
