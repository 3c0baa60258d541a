import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** Who did or read what. Insert and select only. */
@Entity('audit_entries')
export class AuditEntry extends RecordedRow {
  /** Null for the system and for clients who came by a one-time link. */
  @Column('uuid', { name: 'user_id', nullable: true })
  userId: string | null;

  @Column('text', { name: 'request_id' })
  requestId: string;

  /** For example `clients.update`. */
  @Column('text')
  action: string;

  @Column('uuid', { name: 'record_id' })
  recordId: string;

  /** Names of the fields concerned, never their values. */
  @Column('text', { array: true })
  fields: string[];
}
