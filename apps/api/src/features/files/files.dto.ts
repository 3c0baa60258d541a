import { ApiProperty } from '@nestjs/swagger';
import { fileTypes, rideFileType, type StoredFile } from '@studio/database';
import { TextField, UuidField } from '../../http/fields.js';
import { Marked } from '../../http/marked.js';
import { PageQuery } from '../../http/paging.js';

export class UploadFileRequest {
  @UuidField({ optional: true, description: 'The visit it belongs to.' })
  fitSessionId?: string;

  @UuidField({ optional: true, description: 'The bike it shows.' })
  bikeId?: string;

  @UuidField({ optional: true, description: 'The shoes it shows.' })
  shoeId?: string;

  @TextField({ optional: true, max: 500, example: 'Left sole before the change.' })
  caption?: string;
}

/** The form as clients send it. */
export class UploadFileForm extends UploadFileRequest {
  @ApiProperty({
    type: 'string',
    format: 'binary',
    description: 'The file itself, at most 15 MB.',
    example: 'left-sole.jpg',
  })
  file: unknown;
}

export class ListFilesQuery extends PageQuery {
  @UuidField({ optional: true, description: 'Of this visit only.' })
  fitSessionId?: string;

  @UuidField({ optional: true, description: 'Of this bike only.' })
  bikeId?: string;

  @UuidField({ optional: true, description: 'Of these shoes only.' })
  shoeId?: string;
}

const signedAddress =
  'https://studio.example/v1/stored-objects?key=…&type=image%2Fjpeg&name=…&expires=…&signature=…';

export class FileResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ format: 'uuid' })
  clientId: string;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  fitSessionId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  bikeId: string | null;

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  shoeId: string | null;

  @Marked('medical')
  @ApiProperty({ type: String, nullable: true, example: 'Left sole before the change.' })
  caption: string | null;

  @ApiProperty({ example: 'left-sole.jpg', description: 'As it was called where it came from.' })
  fileName: string;

  @ApiProperty({
    enum: [...fileTypes, rideFileType],
    description: `By its content; \`${rideFileType}\` of a ride recording a client sent.`,
  })
  mediaType: StoredFile['mediaType'];

  @ApiProperty({ example: 812_345 })
  bytes: number;

  @ApiProperty({ type: Number, nullable: true, example: 3024, description: 'Upright; null for a document.' })
  widthPx: number | null;

  @ApiProperty({ type: Number, nullable: true, example: 4032 })
  heightPx: number | null;

  @ApiProperty({
    example: '9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08',
    description:
      'SHA-256 of the bytes as kept. An image is kept without what was said in it of place and device.',
  })
  sha256: string;

  @ApiProperty({
    type: String,
    format: 'uuid',
    nullable: true,
    description: 'Null: the client, with a follow-up.',
  })
  uploadedBy: string | null;

  @ApiProperty({ format: 'date-time' })
  uploadedAt: string;

  @ApiProperty({ example: signedAddress, description: 'Open to whoever holds it, until `expiresAt`.' })
  url: string;

  @ApiProperty({
    type: String,
    nullable: true,
    example: signedAddress,
    description: 'A WebP image of at most 320 by 320 pixels; null for a document.',
  })
  thumbnailUrl: string | null;

  @ApiProperty({ format: 'date-time', description: 'Read the record again for new addresses.' })
  expiresAt: string;
}

export class FilePage {
  @ApiProperty({ type: [FileResponse] })
  items: FileResponse[];

  @ApiProperty({ type: String, format: 'uuid', nullable: true })
  next: string | null;
}
