import { ApiProperty } from '@nestjs/swagger';
import { feels, type Feel } from '@studio/database';
import { QueryIntField } from '../../http/fields.js';

const verdicts = ['better', 'no real change', 'worse', 'cannot tell'] as const;
type Verdict = (typeof verdicts)[number];

const judgedMeasures = ['pain', 'comfort', 'power_20_min_w', 'chosen_activities', 'global_change'] as const;

export class ClientSummaryQuery {
  @QueryIntField({ optional: true, min: 1, max: 100_000, description: 'The newest when absent.' })
  version?: number;
}

export class MeasureSummaryResponse {
  @ApiProperty({
    enum: judgedMeasures,
    description:
      '`chosen_activities`: mean of what the rider named before the fit, 0–10; `global_change`: all in all, −5 to 5, told against before.',
  })
  measure: (typeof judgedMeasures)[number];

  @ApiProperty({ type: Number, nullable: true, example: 6 })
  before: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'As last reported.', example: 1 })
  after: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'After minus before.', example: -5 })
  change: number | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'A change of this person below it is within the error of measuring; null: none published.',
    example: 2,
  })
  detectable: number | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'A change of this person below it does not matter; null: none published.',
    example: 2,
  })
  important: number | null;

  @ApiProperty({ enum: verdicts })
  verdict: Verdict;
}

export class NumbnessSummaryResponse {
  @ApiProperty({ type: Boolean, nullable: true })
  before: boolean | null;

  @ApiProperty({ type: Boolean, nullable: true })
  after: boolean | null;

  @ApiProperty({ enum: verdicts })
  verdict: Verdict;
}

/** No threshold is published for them, so they are shown as they were told. */
export class ToldSummaryResponse {
  @ApiProperty({ type: Number, nullable: true, example: 7, description: 'In the cycling shoes, 0–10.' })
  walkingComfort: number | null;

  @ApiProperty({ enum: feels, nullable: true, description: 'Of a sprint, against before the fit.' })
  sprintFeel: Feel | null;

  @ApiProperty({ enum: feels, nullable: true, description: 'Out of the saddle, against before the fit.' })
  standingFeel: Feel | null;
}

export class SaddleSummaryResponse {
  @ApiProperty({
    description: "Formula and the studio's own offset together; negative is lower.",
    example: -20.3,
  })
  predictedMm: number;

  @ApiProperty({ description: 'Standard deviation of the prediction.', example: 1.6 })
  sdMm: number;

  @ApiProperty({ example: -20 })
  leftMm: number;

  @ApiProperty({ description: 'Left minus predicted.', example: 0.3 })
  differenceMm: number;

  @ApiProperty({ description: 'Within twice the error of the prediction.' })
  asPredicted: boolean;
}

export class ReportAtResponse {
  @ApiProperty({ description: 'Weeks after the fit; 0 is before anything was changed.', example: 6 })
  week: number;

  @ApiProperty({ type: Number, nullable: true })
  pain: number | null;

  @ApiProperty({ type: Number, nullable: true })
  comfort: number | null;

  @ApiProperty({ type: Boolean, nullable: true })
  numbness: boolean | null;

  @ApiProperty({ type: Number, nullable: true })
  power20MinW: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Mean of the rider’s own activities, 0–10.' })
  chosenActivities: number | null;

  @ApiProperty({ type: Number, nullable: true, description: '−5 to 5.' })
  overallChange: number | null;
}

export class ClientSummaryResponse {
  @ApiProperty({ format: 'uuid' })
  fitSessionId: string;

  @ApiProperty({ description: 'Counts up whenever an answer or the way of working it out changed it.' })
  version: number;

  @ApiProperty({ description: 'Of the way it is worked out.', example: '2' })
  methodVersion: string;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;

  @ApiProperty({ type: [MeasureSummaryResponse] })
  measures: MeasureSummaryResponse[];

  @ApiProperty()
  numbness: NumbnessSummaryResponse;

  @ApiProperty()
  told: ToldSummaryResponse;

  @ApiProperty({
    type: SaddleSummaryResponse,
    nullable: true,
    description: 'Null when no plan was carried out.',
  })
  saddle: SaddleSummaryResponse | null;

  @ApiProperty({ type: [ReportAtResponse], description: 'Everything reported, in order of time.' })
  course: ReportAtResponse[];

  @ApiProperty({
    example:
      '6 weeks after your fit, compared with before:\nPain on the bike: 6 of 10 before, 1 of 10 now: better. A change of 2 of 10 counts as real.',
    description: 'In plain words, without a name, for the fitter to send.',
  })
  text: string;
}
