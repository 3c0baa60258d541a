import { ApiProperty } from '@nestjs/swagger';
import { messageTemplateNames, type MessageTemplateName } from '@studio/job-contracts';
import { languages, type Language, type PlaceholderKind } from '@studio/messages';
import { EnumField, TextField } from '../../http/fields.js';

const subject = { max: 200, example: 'Your appointment on {{startsAt}}' };
const body = {
  max: 5000,
  example: 'Hello {{givenName}},\n\nwe look forward to seeing you on {{startsAt}}.\n\n{{studioName}}',
  description: 'Plain text; an empty line begins a paragraph, and a line that is a link alone becomes one.',
};

export class WriteMessageTextRequest {
  @EnumField(languages)
  language: Language;

  @TextField(subject)
  subject: string;

  @TextField(body)
  body: string;
}

export class RestoreMessageTextRequest {
  @EnumField(languages)
  language: Language;
}

export class PreviewMessageRequest {
  @EnumField(languages, { optional: true, description: 'The language of the studio when absent.' })
  language?: Language;

  @TextField({ ...subject, optional: true, description: 'The one in force when absent.' })
  subject?: string;

  @TextField({ ...body, optional: true, description: 'The one in force when absent.' })
  body?: string;
}

export class PlaceholderResponse {
  @ApiProperty({ example: 'startsAt', description: 'Written `{{startsAt}}` in a text.' })
  name: string;

  @ApiProperty({ enum: ['text', 'instant', 'day', 'link'] })
  kind: PlaceholderKind;

  @ApiProperty({ example: 'When the visit begins, by the clock of the place' })
  meaning: string;

  @ApiProperty({ example: '2026-03-02T09:00:00Z', description: 'What a preview shows.' })
  sample: string;

  @ApiProperty({ description: 'A text must hold it.' })
  required: boolean;
}

export class MessageTextResponse {
  @ApiProperty({ enum: languages })
  language: Language;

  @ApiProperty({ example: 'Your appointment on {{startsAt}}' })
  subject: string;

  @ApiProperty({ example: 'Hello {{givenName}},\n\nyour appointment is booked:\n\n{{startsAt}}' })
  body: string;

  @ApiProperty({
    example: 'standard-1',
    description: '`standard-1` is ours, `studio-3` the third of the studio.',
  })
  textVersion: string;
}

export class MessageTemplateResponse {
  @ApiProperty({ enum: messageTemplateNames })
  name: MessageTemplateName;

  @ApiProperty({ example: 'A visit was booked' })
  purpose: string;

  @ApiProperty({ enum: ['client', 'staff'] })
  to: 'client' | 'staff';

  @ApiProperty({
    description: 'Time sets it off: it keeps the quiet hours, and the client can unsubscribe from it.',
  })
  unasked: boolean;

  @ApiProperty({ description: 'A client without a mail address is called.' })
  byPhone: boolean;

  @ApiProperty({ type: [PlaceholderResponse] })
  placeholders: PlaceholderResponse[];

  @ApiProperty({ type: [MessageTextResponse], description: 'In force, one a language.' })
  texts: MessageTextResponse[];
}

export class PreviewResponse {
  @ApiProperty({ enum: languages })
  language: Language;

  @ApiProperty({ example: 'Your appointment on Monday, 2 March 2026 at 10:00' })
  subject: string;

  @ApiProperty({ example: 'Hello Robin,\n\nwe look forward to seeing you.' })
  text: string;

  @ApiProperty({ example: '<!doctype html><html lang="en"><body><p>Hello Robin,</p></body></html>' })
  html: string;
}
