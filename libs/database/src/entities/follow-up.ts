import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const followUpStates = ['scheduled', 'sent', 'answered', 'cancelled'] as const;
export type FollowUpState = (typeof followUpStates)[number];

@Entity('follow_ups')
export class FollowUp extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('uuid', { name: 'client_id' })
  clientId: string;

  /** Weeks after the session. */
  @Column('smallint')
  week: number;

  @Column('timestamptz', { name: 'due_at' })
  dueAt: Date;

  @Column('text', { default: 'scheduled' })
  state: FollowUpState;

  /** SHA-256 of the one-time link's secret, set when the mail is prepared. */
  @Column('bytea', { name: 'link_hash', nullable: true })
  linkHash: Buffer | null;

  @Column('timestamptz', { name: 'link_expires_at', nullable: true })
  linkExpiresAt: Date | null;

  /** RFC 5322 Message-ID, fixed before sending so that a repeat after a crash is recognisable. */
  @Column('text', { name: 'message_id', nullable: true })
  messageId: string | null;

  @Column('timestamptz', { name: 'sent_at', nullable: true })
  sentAt: Date | null;

  @Column('timestamptz', { name: 'answered_at', nullable: true })
  answeredAt: Date | null;

  /** Pain 0–10, comfort 0–100, numbness, 20-minute power: what the client reported. */
  @Column('smallint', { nullable: true })
  pain: number | null;

  @Column('smallint', { nullable: true })
  comfort: number | null;

  @Column('boolean', { nullable: true })
  numbness: boolean | null;

  @Column('double precision', { name: 'power_20_min_w', nullable: true })
  power20MinW: number | null;

  @Column('double precision', { name: 'saddle_height_mm', nullable: true })
  saddleHeightMm: number | null;

  @Column('uuid', { name: 'screening_id', nullable: true })
  screeningId: string | null;
}
