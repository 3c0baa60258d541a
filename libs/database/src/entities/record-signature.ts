import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** An erasure signs that the content of links before it was erased, and of which. */
export type SignatureKind = 'session' | 'amendment' | 'erasure';

/** One link of a studio's chain of signatures. Insert and select only. */
@Entity('record_signatures')
export class RecordSignature extends RecordedRow {
  /** 1 for the studio's first. */
  @Column('integer')
  number: number;

  @Column('text')
  kind: SignatureKind;

  /** Null for an erasure. Of one that was erased there is no row any more. */
  @Column('uuid', { name: 'fit_session_id', nullable: true })
  fitSessionId: string | null;

  @Column('uuid', { name: 'amendment_id', nullable: true })
  amendmentId: string | null;

  /** What was signed, canonical JSON (RFC 8785); null once it was erased, and then a later link says so. */
  @Column('text', { nullable: true })
  content: string | null;

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
