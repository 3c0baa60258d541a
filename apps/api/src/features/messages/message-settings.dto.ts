import { applyDecorators } from '@nestjs/common';
import { ApiProperty } from '@nestjs/swagger';
import { calendarNames, type CalendarNames } from '@studio/database';
import { languages, type Language } from '@studio/messages';
import { Matches } from 'class-validator';
import { BooleanField, EnumField, NestedField, TextField } from '../../http/fields.js';

const ClockField = (example: string): PropertyDecorator =>
  applyDecorators(
    Matches(/^([01]\d|2[0-3]):[0-5]\d$/, { message: 'must be a time like 21:00' }),
    TextField({ min: 5, max: 5, example }),
  );

export class QuietHoursField {
  @ClockField('21:00')
  from: string;

  @ClockField('08:00')
  until: string;
}

export class UpdateMessageSettingsRequest {
  @TextField({
    optional: true,
    nullable: true,
    max: 120,
    example: 'Harbour Fitting',
    description: 'Whom mails come from; the name of the studio when null.',
  })
  senderName?: string | null;

  @EnumField(languages, { optional: true, description: 'For clients who named none we write.' })
  language?: Language;

  @NestedField(() => QuietHoursField, {
    optional: true,
    nullable: true,
    description:
      'By the clock of the studio: what nobody waits for is sent before or after. May run over midnight.',
  })
  quietHours?: QuietHoursField | null;

  @BooleanField({ optional: true, description: 'Confirm bookings, and tell of moves and cancellations.' })
  announceAppointments?: boolean;

  @BooleanField({ optional: true })
  remindTwoDays?: boolean;

  @BooleanField({ optional: true })
  remindTwoHours?: boolean;

  @BooleanField({ optional: true, description: 'Attach an invitation that a calendar program takes up.' })
  attachInvitations?: boolean;

  @EnumField(calendarNames, { optional: true, description: 'How clients are named in calendar feeds.' })
  calendarNames?: CalendarNames;
}

export class MessageSettingsResponse {
  @ApiProperty({ type: String, nullable: true, example: 'Harbour Fitting' })
  senderName: string | null;

  @ApiProperty({ enum: languages })
  language: Language;

  @ApiProperty({ type: QuietHoursField, nullable: true })
  quietHours: QuietHoursField | null;

  @ApiProperty()
  announceAppointments: boolean;

  @ApiProperty()
  remindTwoDays: boolean;

  @ApiProperty()
  remindTwoHours: boolean;

  @ApiProperty()
  attachInvitations: boolean;

  @ApiProperty({ enum: calendarNames })
  calendarNames: CalendarNames;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;
}
