import { ApiProperty } from '@nestjs/swagger';
import { positionFieldIds, type PositionFieldId } from '@studio/fit-math';
import { EnumField } from '../../http/fields.js';
import { bikeUses, type BikeUse } from '../equipment/index.js';

export class SimilarPositionsQuery {
  @EnumField(bikeUses, { optional: true, description: 'On bikes of this use only.', example: 'racing' })
  use?: BikeUse;
}

export class SegmentsResponse {
  @ApiProperty({ description: 'Mean of the sides measured.', example: 434 })
  thighMm: number;

  @ApiProperty({ example: 425 })
  shankMm: number;

  @ApiProperty({ description: 'Along the sole, cleat centre back to below the ankle.', example: 140 })
  footLeverMm: number;
}

export class SpreadOfFigureResponse {
  @ApiProperty({ enum: [...positionFieldIds] })
  field: PositionFieldId;

  @ApiProperty({ example: 'Bottom bracket to saddle top, along the seat tube.' })
  definition: string;

  @ApiProperty({ enum: ['mm', 'deg'] })
  unit: 'mm' | 'deg';

  @ApiProperty({ description: 'Riders in whose position it was measured.', example: 9 })
  riders: number;

  @ApiProperty({ description: 'A quarter of the riders have less. To whole 5 mm or degrees.', example: 715 })
  lowerQuartile: number;

  @ApiProperty({ example: 730 })
  median: number;

  @ApiProperty({ description: 'A quarter of the riders have more.', example: 745 })
  upperQuartile: number;
}

export class SimilarPositionsResponse {
  @ApiProperty({ type: String, enum: [...bikeUses, null], nullable: true, description: 'As asked for.' })
  use: BikeUse | null;

  @ApiProperty({ description: 'Of the rider in question, from this session.' })
  segments: SegmentsResponse;

  @ApiProperty({
    description:
      'By what each segment’s difference is divided: a sixth of its plausible range (house rule). Riders are similar ' +
      'when the root mean square of the three is at most `within`.',
  })
  scaleMm: SegmentsResponse;

  @ApiProperty({ example: 1 })
  within: number;

  @ApiProperty({
    description:
      'Other riders of the studio with such segments and a signed session, on a bike of that use if one is named.',
    example: 9,
  })
  riders: number;

  @ApiProperty({
    type: [SpreadOfFigureResponse],
    nullable: true,
    description:
      'How their positions were left. Null with fewer than 5 riders; so is a figure of fewer left out.',
  })
  figures: SpreadOfFigureResponse[] | null;

  @ApiProperty({
    example: 'Context, not a rule: it tells how others were left, not what this rider needs.',
  })
  caution: string;
}
