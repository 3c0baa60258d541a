import { ApiProperty } from '@nestjs/swagger';
import { followUpStates } from '@studio/follow-up-plans';
import { BooleanField, IntField, NumberField, OwnIdField, UuidField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { PageQuery } from '../../http/paging.js';
import { ChangeResponse, ComplaintLine } from './changes.dto.js';
import { CleatPlanResponse } from './cleat-plan.dto.js';
import { PlaceResponse, SpanResponse } from './flow.dto.js';
import { MeasurementResponse } from './measurements.dto.js';
import { PositionResponse } from './positions.dto.js';
import { AdviceResponse, AmendmentResponse } from './sign-off.dto.js';
import { basedOnField } from './writes/based-on.js';

export class OpenSessionRequest {
  @OwnIdField({
    optional: true,
    description: 'An id made by the sender, who may then send the request again.',
  })
  id?: string;

  @UuidField()
  clientId: string;

  @UuidField()
  bikeId: string;

  @UuidField()
  shoeId: string;

  @UuidField({ optional: true })
  appointmentId?: string;
}

export class ListSessionsQuery extends PageQuery {
  @UuidField({ description: 'Whose sessions.' })
  clientId: string;
}

export class BaselineRequest {
  @IntField({
    min: 0,
    max: 10,
    nullable: true,
    description: 'Worst pain on the bike in the last week, 0–10.',
    example: 6,
  })
  pain: number | null;

  @IntField({
    min: 0,
    max: 100,
    nullable: true,
    description: 'Comfort on the bike, 0 (worst) to 100.',
    example: 45,
  })
  comfort: number | null;

  @BooleanField({ nullable: true, description: 'Numb feet on the bike.', example: true })
  numbness: boolean | null;

  @NumberField({
    min: 20,
    max: 700,
    nullable: true,
    description: 'Best 20-minute power, watts.',
    example: 262,
  })
  power20MinW: number | null;

  @IntField(basedOnField)
  basedOn?: number;
}

export class BaselineResponse {
  @ApiProperty({ type: Number, nullable: true, example: 6 })
  pain: number | null;

  @ApiProperty({ type: Number, nullable: true, example: 45 })
  comfort: number | null;

  @ApiProperty({ type: Boolean, nullable: true, example: true })
  numbness: boolean | null;

  @ApiProperty({ type: Number, nullable: true, example: 262 })
  power20MinW: number | null;

  @ApiProperty({ description: 'Grows with every change.', example: 1 })
  version: number;
}

export class FollowUpResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 2 })
  week: number;

  @ApiProperty({ format: 'date-time', description: "Nine in the morning of the studio's local time." })
  dueAt: string;

  @ApiProperty({ enum: followUpStates })
  state: string;
}

export class FitSessionResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ format: 'uuid' })
  bikeId: string;

  @ApiProperty({ format: 'uuid' })
  shoeId: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  appointmentId: string | null;

  @ApiProperty({ format: 'uuid' })
  fitterId: string;

  @ApiProperty({ format: 'uuid', description: 'The screening that allowed it.' })
  screeningId: string;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  signedAt: string | null;

  @ApiProperty({
    example: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    type: String,
    nullable: true,
    description: 'SHA-256 over the record as signed (canonical JSON, RFC 8785).',
  })
  contentHash: string | null;

  @ApiProperty({ type: PlaceResponse, nullable: true, description: 'Where one was last.' })
  place: PlaceResponse | null;

  @ApiProperty({ type: [SpanResponse], description: 'How long each stage took.' })
  spans: SpanResponse[];

  @Marked('medical')
  @ApiProperty({ type: BaselineResponse, nullable: true })
  baseline: BaselineResponse | null;

  @ApiProperty({ type: [MeasurementResponse], description: 'Those that count.' })
  measurements: MeasurementResponse[];

  @ApiProperty({ type: [MeasurementResponse], description: 'Withdrawn or corrected, with the reason.' })
  withdrawnMeasurements: MeasurementResponse[];

  @ApiProperty({ type: [PositionResponse], description: 'The standing version of each stage.' })
  positions: PositionResponse[];

  @ApiProperty({ type: [ChangeResponse], description: 'In the order they were recorded.' })
  changes: ChangeResponse[];

  @Marked('medical')
  @ApiProperty({ type: [ComplaintLine] })
  complaints: ComplaintLine[];

  @ApiProperty({ type: [CleatPlanResponse] })
  cleatPlans: CleatPlanResponse[];

  @ApiProperty({
    type: AdviceResponse,
    nullable: true,
    description:
      'What the rider is told of the first weeks; null until it is written or the session is signed.',
  })
  advice: AdviceResponse | null;

  @ApiProperty({ type: [AmendmentResponse], description: 'Written after the signature, each signed too.' })
  amendments: AmendmentResponse[];

  @ApiProperty({ type: [FollowUpResponse] })
  followUps: FollowUpResponse[];
}

export class FitSessionLine {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  bikeId: string;

  @ApiProperty({ format: 'date-time' })
  openedAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  signedAt: string | null;
}

export class FitSessionPage {
  @ApiProperty({ type: [FitSessionLine] })
  items: FitSessionLine[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
