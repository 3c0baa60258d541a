import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** One link of a studio's chain of signatures. Insert and select only. */
@Entity('record_signatures')
export class RecordSignature extends RecordedRow {
  /** 1 for the studio's first. */
  @Column('integer')
  number: number;

  @Column('text')
  kind: 'session' | 'amendment';

  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('uuid', { name: 'amendment_id', nullable: true })
  amendmentId: string | null;

  /** What was signed, canonical JSON (RFC 8785). */
  @Column('text')
  content: string;

  /** SHA-256 of `content`, hexadecimal. */
  @Column('text', { name: 'content_hash' })
  contentHash: string;

  @Column('text', { name: 'previous_hash', nullable: true })
  previousHash: string | null;

  /** SHA-256 over this link and, by `previousHash`, all before it. */
  @Column('text')
  hash: string;

  @Column('uuid', { name: 'signed_by' })
  signedBy: string;

  @Column('timestamptz', { name: 'signed_at' })
  signedAt: Date;
}
