import { ApiProperty } from '@nestjs/swagger';

export const measures = [
  'pain',
  'comfort',
  'power_20_min_w',
  'chosen_activities',
  'global_change',
  'saddle_change_left_minus_predicted_mm',
] as const;
export type Measure = (typeof measures)[number];

export class IntervalResponse {
  @ApiProperty({ example: -4.1 })
  low: number;

  @ApiProperty({ example: -2.3 })
  high: number;
}

export class MissingBecauseResponse {
  @ApiProperty({ description: 'Asked, and no answer came.' })
  noAnswer: number;

  @ApiProperty({ description: 'Nothing could be sent: no consent to contact, or no address.' })
  couldNotBeAsked: number;

  @ApiProperty({ description: 'Due, and not sent yet.' })
  notAskedYet: number;
}

export class MeasureMissingBecauseResponse extends MissingBecauseResponse {
  @ApiProperty({ description: 'Answered, but not this.' })
  notGiven: number;

  @ApiProperty({ description: 'Answered, but there is no value from before.' })
  noValueBefore: number;
}

export class DistributionResponse {
  @ApiProperty()
  mean: number;

  @ApiProperty({ type: Number, nullable: true, description: 'Null for one person.' })
  standardDeviation: number | null;

  @ApiProperty()
  least: number;

  @ApiProperty()
  lowerQuartile: number;

  @ApiProperty()
  median: number;

  @ApiProperty()
  upperQuartile: number;

  @ApiProperty()
  most: number;
}

export class RespondersResponse {
  @ApiProperty({ description: 'By an amount that is real and matters.' })
  better: number;

  @ApiProperty()
  noRealChange: number;

  @ApiProperty()
  worse: number;

  @ApiProperty({ type: Number, nullable: true, description: 'Better, of those who answered. 0–1.' })
  shareBetter: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true })
  interval95: IntervalResponse | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Of all, were none of the missing better.' })
  shareAtWorst: number | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Of all, were all of the missing better.' })
  shareAtBest: number | null;

  @ApiProperty({
    example:
      '9 of 14 changed by an amount that matters (64 %, 95 % interval 39 % to 84 %); 3 missing, so of the whole group 53 % to 71 %.',
  })
  sentence: string;
}

export class TypicalChangeResponse {
  @ApiProperty({ example: 'Hodges–Lehmann, signed rank interval' })
  method: string;

  @ApiProperty({ type: Number, nullable: true })
  medianChange: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true })
  interval95: IntervalResponse | null;

  @ApiProperty({
    example: 'In 14 people the typical change was -3.0 (95 % interval -4.0 to -2.5); 3 missing.',
  })
  sentence: string;
}

export class SignedRankResponse {
  @ApiProperty({ example: 'Wilcoxon signed rank, exact' })
  method: string;

  @ApiProperty({ type: Number, nullable: true, description: 'Null below six people.' })
  p: number | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Corrected for all measures asked about at once (Holm).',
  })
  correctedP: number | null;
}

export class SensitivityResponse {
  @ApiProperty({ description: 'The direction holds whatever the missing would have said.' })
  robust: boolean;

  @ApiProperty({
    example:
      'The direction holds whatever the 3 missing would have said: mean change -3.2 as answered, -1.4 at worst, -3.8 at best, -2.6 with the last known.',
  })
  sentence: string;
}

export class MeasureChangeResponse {
  @ApiProperty({
    enum: measures,
    description:
      '`chosen_activities`: each rider’s mean of what they named before the fit; `global_change`: all in all, told against before, which is 0.',
  })
  measure: Measure;

  @ApiProperty({ example: 'paired mean difference, t interval' })
  method: string;

  @ApiProperty({ description: 'Clients with both values.', example: 14 })
  n: number;

  @ApiProperty({ description: 'Clients of the group without.', example: 3 })
  missing: number;

  @ApiProperty({ description: 'The missing by reason.' })
  missingBecause: MeasureMissingBecauseResponse;

  @ApiProperty({ type: DistributionResponse, nullable: true, description: 'Of those with both values.' })
  before: DistributionResponse | null;

  @ApiProperty({ type: DistributionResponse, nullable: true })
  after: DistributionResponse | null;

  @ApiProperty({ type: DistributionResponse, nullable: true, description: 'After minus before.' })
  change: DistributionResponse | null;

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
    example: 'In 14 people the mean changed by -3.2 (95 % interval -4.1 to -2.3); 3 missing.',
    description: 'The same in one sentence.',
  })
  sentence: string;

  @ApiProperty()
  typicalChange: TypicalChangeResponse;

  @ApiProperty({
    type: SignedRankResponse,
    nullable: true,
    description: 'Null where before and after is not the question.',
  })
  test: SignedRankResponse | null;

  @ApiProperty({
    type: RespondersResponse,
    nullable: true,
    description: 'Null where the measure has no better or worse.',
  })
  responders: RespondersResponse | null;

  @ApiProperty({
    type: SensitivityResponse,
    nullable: true,
    description: 'What the missing could make of it; null for measures without ends of a scale.',
  })
  ifMissingHadAnswered: SensitivityResponse | null;
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

export class FeelResponse {
  @ApiProperty({ description: 'Who had tried it and told.', example: 20 })
  n: number;

  @ApiProperty({ description: 'Who did not tell.', example: 7 })
  missing: number;

  @ApiProperty({ example: 3 })
  notTried: number;

  @ApiProperty({ example: 2 })
  muchBetter: number;

  @ApiProperty({ example: 4 })
  better: number;

  @ApiProperty({ example: 9 })
  same: number;

  @ApiProperty({ example: 4 })
  worse: number;

  @ApiProperty({ example: 1 })
  muchWorse: number;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Better or much better, of those who had tried. 0–1.',
  })
  shareBetter: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true })
  betterInterval95: IntervalResponse | null;

  @ApiProperty({ type: Number, nullable: true, description: 'Worse or much worse. 0–1.' })
  shareWorse: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true })
  worseInterval95: IntervalResponse | null;

  @ApiProperty({
    example:
      'Of 20 who had tried, 6 felt it better than before (30 %, 95 % interval 15 % to 52 %) and 5 worse (25 %, 95 % interval 11 % to 47 %); 3 had not tried, 7 missing. No threshold is published for it.',
  })
  sentence: string;
}

export class WalkingComfortResponse {
  @ApiProperty({ example: 21 })
  n: number;

  @ApiProperty({ example: 9 })
  missing: number;

  @ApiProperty({ type: DistributionResponse, nullable: true, description: 'After the fit, 0–10.' })
  after: DistributionResponse | null;

  @ApiProperty({
    example:
      'In 21 people walking in the cycling shoes was at 7.1 of 10 on average; 9 missing. It is not asked before a fit, so this tells no change. No threshold is published for it.',
  })
  sentence: string;
}

export const powerVerdicts = ['not worse', 'worse', 'not shown', 'cannot tell'] as const;

export class PowerAnswerResponse {
  @ApiProperty({
    example: 'Did riders with the cleat at midfoot lose 20-minute power, by more than 2 %?',
  })
  question: string;

  @ApiProperty({
    example:
      'No: in 31 riders with the cleat at midfoot it changed by −0.2 % on average (95 % interval −1.5 % to +1.1 %); a loss of more than 2 % is ruled out (with 95 % confidence no lower than −1.3 %). 6 of 37 have no value before and after. Nobody was randomised.',
    description: 'With its interval, how many are missing, and what it cannot prove.',
  })
  answer: string;

  @ApiProperty({ enum: powerVerdicts })
  verdict: (typeof powerVerdicts)[number];

  @ApiProperty({ example: 'non-inferiority, one-sided 95 % bound by Student’s t' })
  method: string;

  @ApiProperty({ example: 2 })
  marginPercent: number;

  @ApiProperty()
  n: number;

  @ApiProperty()
  missing: number;

  @ApiProperty({ type: Number, nullable: true, description: 'Of the mean before; negative is a loss.' })
  meanChangePercent: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true, description: 'Of the mean change, percent.' })
  interval95Percent: IntervalResponse | null;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'With 95 % confidence the mean change is not below this.',
  })
  lowerBound95Percent: number | null;

  @ApiProperty({ type: Number, nullable: true })
  upperBound95Percent: number | null;
}

export class MeasureDifferenceResponse {
  @ApiProperty({ enum: measures })
  measure: Measure;

  @ApiProperty({ example: 'difference of mean changes, Welch’s t interval' })
  method: string;

  @ApiProperty({ description: 'In the group.' })
  n: number;

  @ApiProperty({ description: 'In the others.' })
  othersN: number;

  @ApiProperty({ description: 'In both.' })
  missing: number;

  @ApiProperty({
    type: Number,
    nullable: true,
    description: 'Change of the group minus change of the others.',
  })
  difference: number | null;

  @ApiProperty({ type: IntervalResponse, nullable: true })
  interval95: IntervalResponse | null;

  @ApiProperty({
    example:
      'No difference can be told from chance: -0.4 (95 % interval -1.3 to 0.5); 14 against 40, not randomised.',
  })
  sentence: string;
}

export class ComparisonResponse {
  @ApiProperty({ description: 'Always false: riders got what suited them.' })
  randomised: false;

  @ApiProperty({ example: 'Not randomised: riders got what suited them.' })
  caution: string;

  @ApiProperty({ description: 'Others of whom a follow-up has come due.' })
  others: number;

  @ApiProperty({ type: [MeasureDifferenceResponse] })
  measures: MeasureDifferenceResponse[];
}

export class OutcomeReviewResponse {
  @ApiProperty({ description: 'The group in words.', example: 'riders with the cleat at midfoot' })
  group: string;

  @ApiProperty({
    description: 'Clients with a signed session of which a follow-up has come due, each by the newest such.',
    example: 17,
  })
  sessions: number;

  @ApiProperty({ description: 'Of these, with at least one answer.', example: 14 })
  answered: number;

  @ApiProperty({ description: 'Of these, without any answer; counted, never dropped.', example: 3 })
  missing: number;

  @ApiProperty({ description: 'The missing by reason.' })
  missingBecause: MissingBecauseResponse;

  @ApiProperty({ description: 'Earlier sessions of the same clients, left out so that nobody counts twice.' })
  earlierSessions: number;

  @ApiProperty({ type: [MeasureChangeResponse] })
  measures: MeasureChangeResponse[];

  @ApiProperty()
  numbness: NumbnessChangeResponse;

  @ApiProperty({ description: 'How a sprint feels against before the fit.' })
  sprint: FeelResponse;

  @ApiProperty({ description: 'How riding out of the saddle feels against before the fit.' })
  standing: FeelResponse;

  @ApiProperty({ description: 'Walking in the cycling shoes.' })
  walkingComfort: WalkingComfortResponse;

  @ApiProperty({ description: 'Whether 20-minute power was lost.' })
  power: PowerAnswerResponse;

  @ApiProperty({ type: ComparisonResponse, nullable: true, description: 'When asked for.' })
  comparison: ComparisonResponse | null;

  @ApiProperty({
    example: 'Nobody was randomised: a change after a fit is not proof that the fit did it.',
    description: 'What no number here can tell.',
  })
  caution: string;
}
