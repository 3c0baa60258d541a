import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** A secret address at which a calendar program reads the visits of one fitter or one room. */
@Entity('calendar_feeds')
export class CalendarFeed extends RecordedRow {
  @Column('uuid', { name: 'fitter_id', nullable: true })
  fitterId: string | null;

  @Column('uuid', { name: 'room_id', nullable: true })
  roomId: string | null;

  /** SHA-256 of the secret in its address; another one when it was renewed. */
  @Column('bytea', { name: 'secret_hash' })
  secretHash: Buffer;

  @Column('timestamptz', { name: 'renewed_at', nullable: true })
  renewedAt: Date | null;

  @Column('timestamptz', { name: 'revoked_at', nullable: true })
  revokedAt: Date | null;

  @Column('uuid', { name: 'created_by' })
  createdBy: string;
}
