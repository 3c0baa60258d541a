import { ApiProperty, OmitType, PartialType } from '@nestjs/swagger';
import { offerStates, wishStates, type OfferState, type WishedTime, type WishState } from '@studio/database';
import { Matches } from 'class-validator';
import {
  DayField,
  EnumField,
  IntField,
  NestedListField,
  NumberListField,
  TextField,
  UuidField,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';
import { offerActionNames, wishActionNames, type OfferAction, type WishAction } from './states.js';

const clock = Matches(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, { message: 'must be a time like 08:30' });

export class WishedTimeRequest implements WishedTime {
  @clock
  @TextField({
    max: 5,
    description: 'The visit begins at this time of the place or later …',
    example: '08:00',
  })
  from: string;

  @clock
  @TextField({ max: 5, description: '… and before this one.', example: '12:00' })
  until: string;
}

export class CreateWishRequest {
  @UuidField()
  clientId: string;

  @UuidField()
  serviceId: string;

  @UuidField({ optional: true, nullable: true, description: 'Any who can when absent.' })
  fitterId?: string | null;

  @UuidField({ optional: true, nullable: true, description: 'Any when absent.' })
  siteId?: string | null;

  @NumberListField({
    ...{ optional: true, minItems: 1, maxItems: 7, min: 1, max: 7 },
    description: '1 for Monday to 7 for Sunday; any when absent.',
    example: [1, 3],
  })
  weekdays?: number[];

  @NestedListField(() => WishedTimeRequest, {
    optional: true,
    max: 4,
    description: 'Any time when absent.',
  })
  times?: WishedTimeRequest[];

  @DayField({
    optional: true,
    description: 'Not before this day (today when absent).',
    example: '2090-03-02',
  })
  firstDay?: string;

  @DayField({ description: 'Not after this day; at most a year away.', example: '2090-04-30' })
  lastDay: string;
}

export class ChangeWishRequest extends PartialType(
  OmitType(CreateWishRequest, ['clientId', 'serviceId'] as const),
  { skipNullProperties: false },
) {}

export class ListWishesQuery extends PageQuery {
  @EnumField(wishStates, { optional: true })
  state?: WishState;

  @UuidField({ optional: true })
  clientId?: string;
}

export class WishedTimeResponse {
  @ApiProperty({ example: '08:00' })
  from: string;

  @ApiProperty({ example: '12:00' })
  until: string;
}

export class SlotOfferResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  wishId: string;

  @ApiProperty({ format: 'uuid', description: 'The time is held as this appointment.' })
  appointmentId: string;

  @ApiProperty({ format: 'date-time' })
  startsAt: string;

  @ApiProperty({ enum: offerStates })
  state: OfferState;

  @ApiProperty({ format: 'date-time' })
  expiresAt: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  answeredAt: string | null;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Null when the client answered by the link.',
  })
  answeredBy: string | null;

  @ApiProperty({ enum: offerActionNames, isArray: true, description: 'What the state allows.' })
  allowed: OfferAction[];
}

export class WishResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ example: 'Marta Ferreira' })
  clientName: string;

  @ApiProperty({ format: 'uuid' })
  serviceId: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  fitterId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({ type: [Number], example: [1, 3] })
  weekdays: number[];

  @ApiProperty({ type: [WishedTimeResponse] })
  times: WishedTime[];

  @ApiProperty({ format: 'date', example: '2090-03-02' })
  firstDay: string;

  @ApiProperty({ format: 'date', example: '2090-04-30' })
  lastDay: string;

  @ApiProperty({
    enum: wishStates,
    description:
      '`unanswered`: an offer ran out; nothing more is offered until somebody has asked the client.',
  })
  state: WishState;

  @ApiProperty({ format: 'date-time', description: 'Who waits longest is asked first.' })
  waitingSince: string;

  @ApiProperty({ enum: wishActionNames, isArray: true, description: 'What the state allows.' })
  allowed: WishAction[];

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class WishPage {
  @ApiProperty({ type: [WishResponse], description: 'Who waits longest first.' })
  items: WishResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class WaitingListSettingsRequest {
  @IntField({
    min: 10,
    max: 2880,
    description: 'How long a time is kept for whom it was offered to.',
    example: 120,
  })
  offerMinutes: number;
}

export class WaitingListSettingsResponse {
  @ApiProperty({ type: 'integer', example: 120 })
  offerMinutes: number;
}
