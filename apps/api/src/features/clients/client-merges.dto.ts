import { ApiProperty } from '@nestjs/swagger';
import { UuidField } from '../../http/fields.js';

export class MergeClientRequest {
  @UuidField({ description: 'The record of the same person that is given up for this one.' })
  mergedClientId: string;
}

export class MergedRecordResponse {
  @ApiProperty({ example: 'Martha' })
  givenName: string;

  @ApiProperty({ example: 'Ferreira' })
  familyName: string;

  @ApiProperty({ type: String, nullable: true, example: 'm.ferreira@riders.example' })
  email: string | null;

  @ApiProperty({ type: String, nullable: true, example: '+45 20 65 43 21' })
  phone: string | null;

  @ApiProperty({ type: String, format: 'date', nullable: true, example: '1984-02-29' })
  bornOn: string | null;
}

export class ClientMergeResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  survivingClientId: string;

  @ApiProperty({ format: 'uuid' })
  mergedClientId: string;

  @ApiProperty({ type: MergedRecordResponse, description: 'The merged record, as it is kept.' })
  merged: MergedRecordResponse;

  @ApiProperty({
    type: [String],
    description: 'Fields of the surviving record that the other one completed.',
    example: ['phone'],
  })
  completed: string[];

  @ApiProperty({ format: 'date-time' })
  mergedAt: string;

  @ApiProperty({ format: 'uuid' })
  mergedBy: string;

  @ApiProperty({ type: String, format: 'date-time', nullable: true })
  undoneAt: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  undoneBy: string | null;
}
