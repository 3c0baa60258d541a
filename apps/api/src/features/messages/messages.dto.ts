import { ApiProperty } from '@nestjs/swagger';
import { messageChannels, messageStates, type MessageChannel, type MessageState } from '@studio/database';
import { messageTemplateNames, type MessageTemplateName } from '@studio/job-contracts';
import { EnumField, UuidField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export class ListMessagesQuery extends PageQuery {
  @UuidField({ optional: true })
  clientId?: string;

  @UuidField({ optional: true, description: 'Only what is about this record.' })
  subjectId?: string;

  @EnumField(messageStates, { optional: true })
  state?: MessageState;

  @EnumField(messageTemplateNames, { optional: true })
  template?: MessageTemplateName;
}

export class MessageResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'Null: to one of the staff.' })
  clientId: string | null;

  @ApiProperty({ enum: messageTemplateNames })
  template: MessageTemplateName;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'The record it is about.' })
  subjectId: string | null;

  @ApiProperty({
    enum: messageStates,
    description:
      '`failed`: a mail server said never, at once or by a later report. `gave_up`: it said later until the tries were ' +
      'used up. `cancelled`: not wanted or not allowed when its time came.',
  })
  state: MessageState;

  @ApiProperty({ enum: messageChannels, description: '`phone`: it became a task, to be read out.' })
  channel: MessageChannel;

  @ApiProperty({ format: 'date-time', description: 'It goes out then at the earliest.' })
  notBefore: string;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'Not any more from then on.',
  })
  expiresAt: string | null;

  @ApiProperty({ type: 'integer', example: 1 })
  attempts: number;

  @ApiProperty({ type: String, nullable: true, example: 'SMTP 550 5.1.1' })
  lastError: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'robin@riders.example' })
  address: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'en' })
  language: string | null;

  @ApiProperty({
    type: String,
    nullable: true,
    example: 'standard-1',
    description: 'The wording: `standard-1` is ours, `studio-3` the third of the studio.',
  })
  textVersion: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Some questions before your bike fit' })
  subject: string | null;

  @ApiProperty({
    type: String,
    nullable: true,
    example: 'Hello Robin,\n\nplease answer these questions before your bike fit:\n\n[link]',
    description: 'As it was sent, with `[link]` for each address in it. Null before.',
  })
  text: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  sentAt: string | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'When a mail server reported that it could not be delivered.',
  })
  bouncedAt: string | null;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'It was sent again for this one.',
  })
  repeatsId: string | null;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;
}

export class MessagePage {
  @ApiProperty({ type: [MessageResponse] })
  items: MessageResponse[];

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Ask for the next page after it.',
  })
  next: string | null;
}
