import { ApiProperty } from '@nestjs/swagger';
import { Marked } from '../../http/marked.js';
import { PageQuery } from '../../http/paging.js';

export class OutcomeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ format: 'date-time' })
  computedAt: string;

  @Marked('medical')
  @ApiProperty({ example: 6, type: 'integer', nullable: true })
  painBefore: number | null;

  @Marked('medical')
  @ApiProperty({ example: 2, type: 'integer', nullable: true })
  painAfter: number | null;

  @Marked('medical')
  @ApiProperty({ example: 45, type: 'integer', nullable: true })
  comfortBefore: number | null;

  @Marked('medical')
  @ApiProperty({ example: 80, type: 'integer', nullable: true })
  comfortAfter: number | null;

  @Marked('medical')
  @ApiProperty({ example: true, type: Boolean, nullable: true })
  numbnessBefore: boolean | null;

  @Marked('medical')
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
    description: "Of the chosen cleat option, with the studio's own offset; negative is lower.",
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
