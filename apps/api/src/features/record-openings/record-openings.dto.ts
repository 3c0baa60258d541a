import { ApiProperty } from '@nestjs/swagger';
import { openingGrounds, type OpeningGround } from '@studio/database';
import { EnumField, TextField, UuidField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { PageQuery } from '../../http/paging.js';

export class OpenRecordRequest {
  @EnumField(openingGrounds, {
    description: 'What a restricted record may be read for: Regulation (EU) 2016/679, article 18 (2).',
    example: 'legal_claim',
  })
  ground: OpeningGround;

  @TextField({
    min: 10,
    max: 1000,
    description: 'Why it has to be read now; the owner reads it.',
    example: 'The insurer asks by Friday what was changed on the bike.',
  })
  reason: string;
}

export class ListRecordOpeningsQuery extends PageQuery {
  @UuidField({ optional: true, description: 'Only of this client.' })
  clientId?: string;
}

export class RecordOpeningResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ format: 'uuid' })
  openedBy: string;

  @ApiProperty({ example: 'Tomas Lindqvist' })
  openedByName: string;

  @ApiProperty({ enum: openingGrounds })
  ground: OpeningGround;

  @Marked('medical')
  @ApiProperty({ example: 'The insurer asks by Friday what was changed on the bike.' })
  reason: string;

  @ApiProperty({ format: 'date-time' })
  openedAt: Date;

  @ApiProperty({ format: 'date-time', description: 'From then on it is withheld again.' })
  expiresAt: Date;
}

export class RecordOpeningPage {
  @ApiProperty({ type: [RecordOpeningResponse], description: 'Newest first.' })
  items: RecordOpeningResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
