import { ApiProperty } from '@nestjs/swagger';
import { BooleanField, IntField, MapField, NumberField } from '../../http/fields.js';
import { QuestionSetResponse } from '../screenings/index.js';

export class FollowUpLinkResponse {
  @ApiProperty({ example: 'Harbour Lane Fitting' })
  studio: string;

  @ApiProperty({ example: 2, description: 'Whole weeks since the fit, rounded.' })
  week: number;

  @ApiProperty({ example: 14 })
  daysAfter: number;

  @ApiProperty({
    example: true,
    description:
      'Whether to ask for 20-minute power: not of somebody whom a finding keeps from hard efforts.',
  })
  asksForPower: boolean;

  @ApiProperty({ description: 'Asked again, so that nothing new is missed.' })
  questions: QuestionSetResponse;
}

export class FollowUpAnswersRequest {
  @IntField({
    min: 0,
    max: 10,
    nullable: true,
    optional: true,
    description: 'Worst pain on the bike in the last week, 0–10.',
    example: 2,
  })
  pain?: number | null;

  @IntField({
    min: 0,
    max: 100,
    nullable: true,
    optional: true,
    description: 'Comfort on the bike, 0 (worst) to 100.',
    example: 80,
  })
  comfort?: number | null;

  @BooleanField({ nullable: true, optional: true, description: 'Numb feet on the bike.', example: false })
  numbness?: boolean | null;

  @NumberField({
    min: 20,
    max: 700,
    nullable: true,
    optional: true,
    description: 'Best 20-minute power since the fit, watts.',
    example: 264,
  })
  power20MinW?: number | null;

  @NumberField({
    example: 724,
    min: 300,
    max: 1100,
    nullable: true,
    optional: true,
    description: 'Saddle height as ridden now, if it was changed since.',
  })
  saddleHeightMm?: number | null;

  @MapField({
    description:
      'Answers to the questions of the link. The fields above are the same as answering `pain`, `comfort`, ' +
      '`foot_numb_on_bike`, `power_20_min_w` and `saddle_height_mm` here.',
    example: { anything_new: 'no', complaint_sites: [], overall_change: '3' },
  })
  answers: Record<string, unknown>;
}

export class FollowUpReceivedResponse {
  @ApiProperty({
    example: ['Stop riding and see your doctor today.'],
    type: [String],
    description: 'What the client should do now; shown at once, most pressing first.',
  })
  advice: string[];

  @ApiProperty({ example: 'This sorts answers and says whom to see. It is no diagnosis.' })
  caution: string;
}
