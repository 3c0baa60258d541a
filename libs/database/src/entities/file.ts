import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

/** What somebody of the studio may upload. */
export const fileTypes = ['image/jpeg', 'image/png', 'image/webp', 'application/pdf'] as const;
export type FileType = (typeof fileTypes)[number];
/** Of a ride recording a client sent, whatever its format. */
export const rideFileType = 'application/octet-stream';

/** A photo or document of a client; the bytes are in the storage, under the row's id. */
@Entity('files')
export class StoredFile extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  /** The visit it belongs to; signed, it keeps it. */
  @Column('uuid', { name: 'fit_session_id', nullable: true })
  fitSessionId: string | null;

  @Column('uuid', { name: 'bike_id', nullable: true })
  bikeId: string | null;

  @Column('uuid', { name: 'shoe_id', nullable: true })
  shoeId: string | null;

  @Column('text', { nullable: true, transformer: sealedColumn })
  caption: string | null;

  /** As it was called where it came from. */
  @Column('text', { name: 'file_name' })
  fileName: string;

  @Column('text', { name: 'media_type' })
  mediaType: FileType | typeof rideFileType;

  @Column('integer')
  bytes: number;

  /** Of an image; null for a document. */
  @Column('integer', { name: 'width_px', nullable: true })
  widthPx: number | null;

  @Column('integer', { name: 'height_px', nullable: true })
  heightPx: number | null;

  /** Of the bytes as kept, hexadecimal. */
  @Column('text')
  sha256: string;

  /** Null: the client did, by a follow-up's link. */
  @Column('uuid', { name: 'uploaded_by', nullable: true })
  uploadedBy: string | null;
}
