import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

export const intakeDeliveries = ['mail', 'hand_over'] as const;
export type IntakeDelivery = (typeof intakeDeliveries)[number];

/** A one-time link by which a client answers a question set, and what was saved of the answers so far. */
@Entity('intake_links')
export class IntakeLink extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('text', { name: 'question_set_id' })
  questionSetId: string;

  @Column('text', { name: 'question_set_version' })
  questionSetVersion: string;

  @Column('text')
  delivery: IntakeDelivery;

  /** SHA-256 of the link's secret; null until the mail is prepared. */
  @Column('bytea', { name: 'link_hash', nullable: true })
  linkHash: Buffer | null;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('text', { name: 'message_id', nullable: true })
  messageId: string | null;

  @Column('timestamptz', { name: 'sent_at', nullable: true })
  sentAt: Date | null;

  /** Saved page by page until they are handed in. */
  @Column('jsonb', { default: {}, transformer: sealedColumn })
  answers: Record<string, unknown>;

  @Column('timestamptz', { name: 'saved_at', nullable: true })
  savedAt: Date | null;

  /** Urgent rules whose advice the client was shown already, and the studio told of. */
  @Column('text', { name: 'urgent_rules', array: true, default: [] })
  urgentRules: string[];

  @Column('timestamptz', { name: 'submitted_at', nullable: true })
  submittedAt: Date | null;

  @Column('uuid', { name: 'screening_id', nullable: true })
  screeningId: string | null;

  @Column('timestamptz', { name: 'revoked_at', nullable: true })
  revokedAt: Date | null;

  @Column('uuid', { name: 'created_by' })
  createdBy: string;
}
