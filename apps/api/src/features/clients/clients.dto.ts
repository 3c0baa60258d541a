import { ApiProperty } from '@nestjs/swagger';
import { consentKinds, type ClientConsent, type ConsentKind } from '@studio/database';
import { DayField, EmailField, EnumField, IntField, TextField } from '../../http/fields.js';
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
}

export class UpdateClientRequest {
  @IntField({ min: 1, max: 2_147_483_647, description: 'The version the change was made from.', example: 1 })
  version: number;

  @TextField({ example: 'Marta', optional: true, max: 100 })
  givenName?: string;

  @TextField({ example: 'Ferreira Holm', optional: true, max: 100 })
  familyName?: string;

  @EmailField({ optional: true, nullable: true })
  email?: string | null;

  @TextField({ example: '+45 20 12 34 56', optional: true, nullable: true, max: 40 })
  phone?: string | null;

  @DayField({ optional: true, nullable: true })
  bornOn?: string | null;
}

export class ListClientsQuery extends PageQuery {
  @TextField({
    optional: true,
    max: 100,
    description: 'The beginning of the family or the given name.',
    example: 'ferr',
  })
  name?: string;
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

  @ApiProperty({ type: 'integer', example: 1 })
  version: number;

  @ApiProperty({ format: 'date-time' })
  createdAt: string;
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

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  withdrawnAt: string | null;

  static of(row: ClientConsent): ConsentResponse {
    return {
      id: row.id,
      kind: row.kind,
      textVersion: row.textVersion,
      givenAt: row.givenAt.toISOString(),
      takenBy: row.takenBy,
      withdrawnAt: row.withdrawnAt?.toISOString() ?? null,
    };
  }
}
