import { applyDecorators } from '@nestjs/common';
import { ApiProperty, OmitType, PartialType } from '@nestjs/swagger';
import {
  exceptionKinds,
  exceptionReasons,
  type ExceptionKind,
  type ExceptionReason,
  type HoursExceptionRow,
  type WeeklyHoursRow,
} from '@studio/database';
import { ArrayUnique, IsInt, Matches } from 'class-validator';
import {
  DayField,
  EnumField,
  NestedListField,
  NumberListField,
  TextField,
  UuidField,
  type FieldOptions,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

/** A time of day by the clock on the wall; 24:00 is the end of the day. */
const ClockField = (options: FieldOptions): PropertyDecorator =>
  applyDecorators(
    Matches(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, { message: 'must be a time like 09:30, or 24:00' }),
    TextField({ ...options, min: 5, max: 5 }),
  );

export const minutesOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));

const clockOf = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

class OwnedRequest {
  @UuidField({ optional: true, description: 'Hours of one person …' })
  staffId?: string;

  @UuidField({ optional: true, description: '… of one room …' })
  roomId?: string;

  @UuidField({ optional: true, description: '… of one site; with none of the three, of the whole studio.' })
  siteId?: string;
}

export class BreakRequest {
  @ClockField({ example: '12:00' })
  from: string;

  @ClockField({ example: '12:45' })
  until: string;
}

export class CreateWeeklyHoursRequest extends OwnedRequest {
  @UuidField({
    optional: true,
    nullable: true,
    description: 'Where the person works then; any site when absent.',
  })
  atSiteId?: string | null;

  @ArrayUnique()
  @IsInt({ each: true })
  @NumberListField({
    minItems: 1,
    maxItems: 7,
    min: 1,
    max: 7,
    description: '1 Monday to 7 Sunday (ISO 8601).',
    example: [1, 2, 3, 4, 5],
  })
  weekdays: number[];

  @ClockField({ example: '09:00' })
  from: string;

  @ClockField({ description: 'Later than `from`; 24:00 is the end of the day.', example: '17:00' })
  until: string;

  @NestedListField(() => BreakRequest, { optional: true, max: 8 })
  breaks?: BreakRequest[];

  @DayField({ description: 'The first day they hold.', example: '2026-01-01' })
  validFrom: string;

  @DayField({ optional: true, nullable: true, description: 'The last day; without end when absent.' })
  validUntil?: string | null;
}

export class UpdateWeeklyHoursRequest extends PartialType(
  OmitType(CreateWeeklyHoursRequest, ['staffId', 'roomId', 'siteId'] as const),
  { skipNullProperties: false },
) {}

export class CreateHoursExceptionRequest extends OwnedRequest {
  @EnumField(exceptionKinds, {
    description: "`open`: other hours instead of the week's; `closed`: not open then.",
  })
  kind: ExceptionKind;

  @EnumField(exceptionReasons)
  reason: ExceptionReason;

  @TextField({ optional: true, nullable: true, max: 200, example: 'Midsummer' })
  note?: string | null;

  @DayField({ example: '2026-06-24' })
  firstDay: string;

  @DayField({ description: 'Included.', example: '2026-06-24' })
  lastDay: string;

  @ClockField({ optional: true, description: 'With `until`; whole days without both.', example: '12:00' })
  from?: string;

  @ClockField({ optional: true, example: '24:00' })
  until?: string;
}

export class UpdateHoursExceptionRequest extends PartialType(
  OmitType(CreateHoursExceptionRequest, ['staffId', 'roomId', 'siteId', 'from', 'until'] as const),
  { skipNullProperties: false },
) {
  @ClockField({
    optional: true,
    nullable: true,
    description: 'With `until`; whole days when both are null.',
    example: '12:00',
  })
  from?: string | null;

  @ClockField({ optional: true, nullable: true, example: '24:00' })
  until?: string | null;
}

export class ListHoursQuery extends PageQuery {
  @UuidField({ optional: true })
  staffId?: string;

  @UuidField({ optional: true })
  roomId?: string;

  @UuidField({ optional: true })
  siteId?: string;
}

export class OpeningHoursQuery {
  @UuidField({ optional: true })
  staffId?: string;

  @UuidField({ optional: true })
  roomId?: string;

  @UuidField({ optional: true, description: 'The site; with `staffId`, where that person is asked to work.' })
  siteId?: string;

  @DayField({ example: '2026-03-28' })
  firstDay: string;

  @DayField({ description: 'Included; at most 62 days.', example: '2026-03-30' })
  lastDay: string;
}

class OwnedResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  staffId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  roomId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  siteId: string | null;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}

export class BreakResponse {
  @ApiProperty({ example: '12:00' })
  from: string;

  @ApiProperty({ example: '12:45' })
  until: string;
}

export class WeeklyHoursResponse extends OwnedResponse {
  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  atSiteId: string | null;

  @ApiProperty({ type: [Number], example: [1, 2, 3, 4, 5] })
  weekdays: number[];

  @ApiProperty({ example: '09:00' })
  from: string;

  @ApiProperty({ example: '17:00' })
  until: string;

  @ApiProperty({ type: [BreakResponse] })
  breaks: BreakResponse[];

  @ApiProperty({ format: 'date' })
  validFrom: string;

  @ApiProperty({ type: String, format: 'date', nullable: true })
  validUntil: string | null;

  static of(row: WeeklyHoursRow): WeeklyHoursResponse {
    const { studioId, createdAt, fromMinutes, untilMinutes, breaks, ...rest } = row;
    return {
      ...rest,
      from: clockOf(fromMinutes),
      until: clockOf(untilMinutes),
      breaks: breaks.map((pause) => ({
        from: clockOf(pause.fromMinutes),
        until: clockOf(pause.untilMinutes),
      })),
    };
  }
}

export class HoursExceptionResponse extends OwnedResponse {
  @ApiProperty({ enum: exceptionKinds })
  kind: ExceptionKind;

  @ApiProperty({ enum: exceptionReasons })
  reason: ExceptionReason;

  @ApiProperty({ example: 'Midsummer Eve', type: String, nullable: true })
  note: string | null;

  @ApiProperty({ format: 'date' })
  firstDay: string;

  @ApiProperty({ format: 'date' })
  lastDay: string;

  @ApiProperty({ type: String, nullable: true, example: '12:00' })
  from: string | null;

  @ApiProperty({ type: String, nullable: true, example: '24:00' })
  until: string | null;

  static of(row: HoursExceptionRow): HoursExceptionResponse {
    const { studioId, createdAt, fromMinutes, untilMinutes, ...rest } = row;
    return {
      ...rest,
      from: fromMinutes === null ? null : clockOf(fromMinutes),
      until: untilMinutes === null ? null : clockOf(untilMinutes),
    };
  }
}

export class WeeklyHoursPage {
  @ApiProperty({ type: [WeeklyHoursResponse] })
  items: WeeklyHoursResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class HoursExceptionPage {
  @ApiProperty({ type: [HoursExceptionResponse] })
  items: HoursExceptionResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class OpenSpanResponse {
  @ApiProperty({ format: 'date-time' })
  startsAt: string;

  @ApiProperty({ format: 'date-time' })
  endsAt: string;

  @ApiProperty({ description: 'RFC 9557.', example: '2026-03-29T09:00:00+02:00[Europe/Copenhagen]' })
  localStart: string;

  @ApiProperty({ example: '2026-03-29T17:00:00+02:00[Europe/Copenhagen]' })
  localEnd: string;
}

export class OpenDayResponse {
  @ApiProperty({ format: 'date' })
  day: string;

  @ApiProperty({ description: '23 or 25 where the clock is changed.', example: 24 })
  hoursInDay: number;

  @ApiProperty({ type: [OpenSpanResponse] })
  open: OpenSpanResponse[];
}

export class OpeningHoursResponse {
  @ApiProperty({ example: 'Europe/Copenhagen' })
  timeZone: string;

  @ApiProperty({ type: [OpenDayResponse] })
  days: OpenDayResponse[];
}
