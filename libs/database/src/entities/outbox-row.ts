import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** An effect outside PostgreSQL, ordered in the transaction that decided it. */
@Entity('outbox')
export class OutboxRow extends RecordedRow {
  @Column('text')
  job: string;

  /** Ids only. */
  @Column('jsonb')
  payload: object;

  @Column('timestamptz', { name: 'available_at' })
  availableAt: Date;

  /** When it was last handed to the queue. */
  @Column('timestamptz', { name: 'relayed_at', nullable: true })
  relayedAt: Date | null;

  @Column('timestamptz', { name: 'done_at', nullable: true })
  doneAt: Date | null;

  /** When its tries were used up: kept for a person to look at. */
  @Column('timestamptz', { name: 'gave_up_at', nullable: true })
  gaveUpAt: Date | null;

  @Column('text', { name: 'last_error', nullable: true })
  lastError: string | null;
}
