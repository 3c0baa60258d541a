import { ApiProperty } from '@nestjs/swagger';
import { TextField } from '../../http/fields.js';
import { PageQuery } from '../../http/paging.js';

export class WriteNoteRequest {
  @TextField({
    max: 2000,
    description: 'Nothing medical: the front desk reads it.',
    example: 'Rang: prefers mornings.',
  })
  text: string;
}

export class ListNotesQuery extends PageQuery {}

export class NoteCorrectionResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ example: 'Prefers evenings.' })
  text: string;

  @ApiProperty({ format: 'uuid' })
  writtenBy: string;

  @ApiProperty({ format: 'date-time' })
  writtenAt: string;
}

export class NoteResponse extends NoteCorrectionResponse {
  @ApiProperty({
    type: [NoteCorrectionResponse],
    description: 'Oldest first; the note itself stays as it was.',
  })
  corrections: NoteCorrectionResponse[];
}

export class NotePage {
  @ApiProperty({ type: [NoteResponse], description: 'Newest first.' })
  items: NoteResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
