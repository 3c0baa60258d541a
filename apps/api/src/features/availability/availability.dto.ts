import { ApiProperty } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsIn } from 'class-validator';
import { DayField, IntField, UuidField } from '../../http/fields.js';

const steps = [5, 10, 15, 20, 30, 60];

export class SlotWish {
  @UuidField()
  serviceId: string;

  @UuidField({ optional: true, description: 'Only with this fitter.' })
  fitterId?: string;

  @UuidField({ optional: true, description: 'Only in this room.' })
  roomId?: string;

  @UuidField({ optional: true, description: 'Only at this site.' })
  siteId?: string;

  @IsIn(steps)
  @Transform(({ value }: { value: unknown }) => (typeof value === 'string' ? Number(value) : value))
  @IntField({
    optional: true,
    min: 5,
    max: 60,
    description: 'Starts lie so many minutes apart by the clock: 5, 10, 15, 20, 30 or 60 (15 when absent).',
    example: 15,
  })
  stepMinutes?: number;
}

export class ListSlotsQuery extends SlotWish {
  @DayField({ example: '2026-03-02' })
  firstDay: string;

  @DayField({ description: 'Included; at most 31 days.', example: '2026-03-08' })
  lastDay: string;
}

export class FirstSlotsQuery extends SlotWish {
  @DayField({
    optional: true,
    description: 'Not before this day (today when absent).',
    example: '2026-03-02',
  })
  firstDay?: string;
}

export class SlotResponse {
  @ApiProperty({ format: 'date-time' })
  startsAt: string;

  @ApiProperty({ format: 'date-time' })
  endsAt: string;

  @ApiProperty({
    description: 'RFC 9557, by the clock of the place.',
    example: '2026-03-02T10:00:00+01:00[Europe/Copenhagen]',
  })
  localStart: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({
    type: [String],
    format: 'uuid',
    description: 'Any of the fitters goes with any of the rooms and any of the benches.',
  })
  fitterIds: readonly string[];

  @ApiProperty({ type: [String], format: 'uuid' })
  roomIds: readonly string[];

  @ApiProperty({ type: [String], format: 'uuid', description: 'Empty when nothing cures.' })
  benchIds: readonly string[];
}

export class SlotDayResponse {
  @ApiProperty({ format: 'date', description: 'By the clock of the place.' })
  day: string;

  @ApiProperty({ type: [SlotResponse] })
  slots: SlotResponse[];
}

export class SlotsResponse {
  @ApiProperty({ type: [SlotDayResponse], description: 'Days with a slot, in order.' })
  days: SlotDayResponse[];
}

export class FitterSlotResponse {
  @ApiProperty({ format: 'uuid' })
  fitterId: string;

  @ApiProperty({ type: SlotResponse })
  slot: SlotResponse;
}

export class FirstSlotsResponse {
  @ApiProperty({ type: SlotResponse, nullable: true, description: 'Null when there is none in half a year.' })
  first: SlotResponse | null;

  @ApiProperty({
    type: [FitterSlotResponse],
    description: 'The first of each fitter who has one in that month.',
  })
  byFitter: FitterSlotResponse[];
}
