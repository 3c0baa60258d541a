import { ApiProperty } from '@nestjs/swagger';
import { ChainHead } from '../../http/chain-head.dto.js';
import { InstantField, TextField, UuidField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export class ListAuditEntriesQuery extends PageQuery {
  @UuidField({ optional: true, description: 'Only what concerned this record.' })
  recordId?: string;

  @UuidField({ optional: true, description: 'Only what this person did or read.' })
  userId?: string;

  @TextField({
    optional: true,
    max: 60,
    description: 'Only actions that begin with this, such as `clients.` or `read.`.',
    example: 'read.',
  })
  action?: string;

  @InstantField({ optional: true, description: 'Not before.' })
  from?: string;

  @InstantField({ optional: true, description: 'Before.' })
  until?: string;
}

export class AuditEntryResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'date-time' })
  createdAt: Date;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Null for the system, and for a client with a one-time link.',
  })
  userId: string | null;

  @ApiProperty({ type: String, nullable: true, example: 'Tomas Lindqvist' })
  userName: string | null;

  @ApiProperty({ example: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11' })
  requestId: string;

  @ApiProperty({ type: String, nullable: true, example: '203.0.113.7' })
  fromAddress: string | null;

  @ApiProperty({ example: 'clients.update' })
  action: string;

  @ApiProperty({ format: 'uuid' })
  recordId: string;

  @ApiProperty({ type: [String], description: 'Fields concerned, never their values.', example: ['phone'] })
  fields: string[];

  @ApiProperty({
    type: String,
    nullable: true,
    description: 'SHA-256 of `<id> <values before, canonical JSON>`, hexadecimal.',
    example: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
  })
  beforeHash: string | null;

  @ApiProperty({
    type: String,
    nullable: true,
    example: '60303ae22b998861bce3b28f33eec1be758a213c86c93c076dbe9f558c11c752',
  })
  afterHash: string | null;

  @ApiProperty({ description: 'Whether a seal covers it.' })
  sealed: boolean;
}

export class AuditEntryPage {
  @ApiProperty({ type: [AuditEntryResponse], description: 'Newest first.' })
  items: AuditEntryResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}

export class AuditVerificationResponse {
  @ApiProperty({ description: 'Whether every sealed entry says what it said when it was sealed.' })
  intact: boolean;

  @ApiProperty({ type: 'integer', example: 12 })
  seals: number;

  @ApiProperty({ type: 'integer', description: 'Entries under the seals.', example: 4031 })
  entries: number;

  @ApiProperty({ type: 'integer', description: 'Entries no seal covers yet.', example: 17 })
  unsealed: number;

  @ApiProperty({
    type: [String],
    description:
      'First days of the months whose entries were kept long enough and may be gone; the chain stands without them.',
    example: ['2020-03-01'],
  })
  letGo: readonly string[];

  @ApiProperty({ type: ChainHead, nullable: true })
  head: ChainHead | null;

  @ApiProperty({
    type: [Number],
    description: 'Numbers of the seals that do not fit.',
    example: [],
  })
  broken: readonly number[];
}
