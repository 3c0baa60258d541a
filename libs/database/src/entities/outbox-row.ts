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

  /** From when it may be handed over; a failed try puts it off. */
  @Column('timestamptz', { name: 'available_at' })
  availableAt: Date;

  /** When it was due, once a failed try has put it off. */
  @Column('timestamptz', { name: 'due_at', nullable: true })
  dueAt: Date | null;

  /** Tries that failed. */
  @Column('integer', { default: 0 })
  attempts: number;

  /** When it was handed to the queue, and since then nothing is known of it. */
  @Column('timestamptz', { name: 'relayed_at', nullable: true })
  relayedAt: Date | null;

  @Column('timestamptz', { name: 'done_at', nullable: true })
  doneAt: Date | null;

  /** When its tries were used up: kept for a person to look at. */
  @Column('timestamptz', { name: 'gave_up_at', nullable: true })
  gaveUpAt: Date | null;

  /** When somebody decided that it need not be done any more. */
  @Column('timestamptz', { name: 'discarded_at', nullable: true })
  discardedAt: Date | null;

  @Column('text', { name: 'last_error', nullable: true })
  lastError: string | null;

  /** The trace it is part of (W3C Trace Context), of its own accord: the transaction that orders says which. */
  @Column('text', { nullable: true })
  traceparent: string | null;
}
