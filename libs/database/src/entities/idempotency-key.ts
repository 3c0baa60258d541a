import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

/** A create that its caller may repeat: what was asked and what was answered. */
@Entity('idempotency_keys')
export class IdempotencyKey extends RecordedRow {
  @Column('uuid', { name: 'user_id' })
  userId: string;

  @Column('text')
  key: string;

  @Column('bytea', { name: 'request_hash' })
  requestHash: Buffer;

  /** Null only inside the transaction that is answering. */
  @Column('jsonb', { nullable: true, transformer: sealedColumn })
  answer: object | null;
}
