import { ApiProperty, PartialType } from '@nestjs/swagger';
import { consentKinds, type ClientConsent, type ConsentKind } from '@studio/database';
import {
  BooleanField,
  DayField,
  EmailField,
  EnumField,
  LanguageField,
  TextField,
  UuidField,
  WordListField,
} from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export class CreateClientRequest {
  @TextField({ max: 100, example: 'Marta' })
  givenName: string;

  @TextField({ max: 100, example: 'Ferreira' })
  familyName: string;

  @EmailField({ optional: true, nullable: true, example: 'marta@riders.example' })
  email?: string | null;

  @TextField({ optional: true, nullable: true, max: 40, example: '+45 20 12 34 56' })
  phone?: string | null;

  @DayField({ optional: true, nullable: true })
  bornOn?: string | null;

  @WordListField({ optional: true, max: 30, example: ['team_harbour'] })
  tags?: string[];

  @TextField({ optional: true, nullable: true, max: 2000, example: 'Parks in the yard.' })
  note?: string | null;

  @LanguageField({
    optional: true,
    nullable: true,
    description: 'What messages are written in; the language of the studio when null.',
  })
  language?: string | null;

  @BooleanField({ optional: true, description: 'Nothing is sent, whatever was consented to.' })
  doNotContact?: boolean;

  @UuidField({
    optional: true,
    nullable: true,
    description: 'The client who consents for this one while it is a minor.',
  })
  guardianId?: string | null;
}

export class UpdateClientRequest extends PartialType(CreateClientRequest, { skipNullProperties: false }) {}

export class ListClientsQuery extends PageQuery {
  @TextField({
    optional: true,
    max: 100,
    description: 'The beginning of the family or the given name, of a record merged into it too.',
    example: 'ferr',
  })
  name?: string;

  @TextField({ optional: true, max: 40, description: 'Only those with this tag.', example: 'team_harbour' })
  tag?: string;
}

export class ClientResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Marta' })
  givenName: string;

  @ApiProperty({ example: 'Ferreira' })
  familyName: string;

  @ApiProperty({ type: String, nullable: true, example: 'marta@riders.example' })
  email: string | null;

  @ApiProperty({ type: String, nullable: true, example: '+45 20 12 34 56' })
  phone: string | null;

  @ApiProperty({ type: String, format: 'date', nullable: true, example: '1984-02-29' })
  bornOn: string | null;

  @ApiProperty({ type: [String], example: ['team_harbour'] })
  tags: string[];

  @ApiProperty({ type: String, nullable: true, example: 'Parks in the yard.' })
  note: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'de' })
  language: string | null;

  @ApiProperty()
  doNotContact: boolean;

  @ApiProperty({ description: 'A mail server refused the address for good; nothing is mailed to it.' })
  emailUndeliverable: boolean;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  guardianId: string | null;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'The record of the same person this one was merged into; this one takes no change any more.',
  })
  mergedInto: string | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description:
      'Since when the record is only kept, at the wish of the person or until it may be erased: nothing is sent, counted or added.',
  })
  restrictedAt: string | null;

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;
}

export const likenesses = ['email', 'phone', 'birth_date', 'name'] as const;
export type Likeness = (typeof likenesses)[number];

export class LikelyDuplicateResponse {
  @ApiProperty({ type: ClientResponse })
  client: ClientResponse;

  @ApiProperty({ enum: likenesses, isArray: true, description: 'What the two have in common.' })
  same: Likeness[];

  @ApiProperty({ description: 'Of the names, by their groups of three letters: 0 to 1.', example: 0.72 })
  nameSimilarity: number;
}

export class ClientPage {
  @ApiProperty({ type: [ClientResponse] })
  items: ClientResponse[];

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Pass as `after` for the next page.',
  })
  next: string | null;
}

export class GiveConsentRequest {
  @EnumField(consentKinds, {
    description:
      '`data`: keeping a record; `health_data`: keeping health answers; `contact`: being written to.',
  })
  kind: ConsentKind;

  @TextField({ max: 40, description: 'The version of the wording the client agreed to.', example: '2026-01' })
  textVersion: string;
}

export class ConsentResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: consentKinds })
  kind: ConsentKind;

  @ApiProperty({ example: '2026-01' })
  textVersion: string;

  @ApiProperty({ format: 'date-time' })
  givenAt: string;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Who took it; null when the client gave it by an intake link.',
  })
  takenBy: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true, description: 'Who gave it for a minor.' })
  guardianId: string | null;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  withdrawnAt: string | null;

  static of(row: ClientConsent): ConsentResponse {
    return {
      id: row.id,
      kind: row.kind,
      textVersion: row.textVersion,
      givenAt: row.givenAt.toISOString(),
      takenBy: row.takenBy,
      guardianId: row.guardianId,
      withdrawnAt: row.withdrawnAt?.toISOString() ?? null,
    };
  }
}
