import { ApiProperty } from '@nestjs/swagger';
import { personExportStates, type PersonExport, type PersonExportState } from '@studio/database';

export class PersonExportResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  rightsRequestId: string;

  @ApiProperty({
    enum: personExportStates,
    description: 'Read it again until it is not `ordered` any more; `expired` when the archive was removed.',
  })
  state: PersonExportState;

  @ApiProperty({ format: 'date-time' })
  orderedAt: string;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'The archive is removed then.',
  })
  expiresAt: string | null;

  @ApiProperty({
    type: String,
    format: 'date-time',
    nullable: true,
    description: 'When the person took it by the link that was mailed.',
  })
  fetchedAt: string | null;

  @ApiProperty({
    type: String,
    nullable: true,
    example:
      'https://studio.example/v1/stored-objects?key=…&type=application%2Fzip&name=…&expires=…&signature=…',
    description: 'Open to whoever holds it, for five minutes; null unless `ready`.',
  })
  url: string | null;

  static of(row: PersonExport, url: string | null): PersonExportResponse {
    return {
      id: row.id,
      rightsRequestId: row.requestId,
      state: row.state,
      orderedAt: row.createdAt.toISOString(),
      expiresAt: row.expiresAt?.toISOString() ?? null,
      fetchedAt: row.fetchedAt?.toISOString() ?? null,
      url,
    };
  }
}
