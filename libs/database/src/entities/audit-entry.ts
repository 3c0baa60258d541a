import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** Who did or read what. Insert and select only, but for the seal. */
@Entity('audit_entries')
export class AuditEntry extends RecordedRow {
  /** Null for the system and for clients who came by a one-time link. */
  @Column('uuid', { name: 'user_id', nullable: true })
  userId: string | null;

  @Column('text', { name: 'request_id' })
  requestId: string;

  /** Null for what was not asked for over the network. */
  @Column('text', { name: 'from_address', nullable: true })
  fromAddress: string | null;

  /** For example `clients.update`; `read.getFitSession` for a read of health data. */
  @Column('text')
  action: string;

  @Column('uuid', { name: 'record_id' })
  recordId: string;

  /** Names of the fields concerned, never their values. */
  @Column('text', { array: true })
  fields: string[];

  /** SHA-256 of the fields' values before, under the entry's own id, so that equal values do not look equal. */
  @Column('bytea', { name: 'before_hash', nullable: true })
  beforeHash: Buffer | null;

  @Column('bytea', { name: 'after_hash', nullable: true })
  afterHash: Buffer | null;

  /** Number of the seal that covers the entry. */
  @Column('integer', { name: 'sealed_in', nullable: true })
  sealedIn: number | null;
}

/** A link of the chain over a studio's audit entries. */
@Entity('audit_seals')
export class AuditSeal extends RecordedRow {
  /** 1 for the studio's first. */
  @Column('integer')
  number: number;

  /** How many entries it covers; 0 when it lets a month go. */
  @Column('integer')
  entries: number;

  /** First day of the month, by UTC, that its entries are of; null in seals from before it was kept. */
  @Column('date', { nullable: true })
  month: string | null;

  /** SHA-256 over the entries: what the chain rests on once they are let go of. */
  @Column('text', { name: 'entries_hash', nullable: true })
  entriesHash: string | null;

  /** The month whose entries need not be there any more. */
  @Column('date', { name: 'lets_go', nullable: true })
  letsGo: string | null;

  @Column('text', { name: 'previous_hash', nullable: true })
  previousHash: string | null;

  /** SHA-256 over the entries and the seal before. */
  @Column('text')
  hash: string;
}
