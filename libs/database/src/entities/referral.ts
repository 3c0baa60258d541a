import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

export const referralStates = [
  'opened',
  'handed_over',
  'acknowledged',
  'answered',
  'cleared',
  'ended',
] as const;
export type ReferralState = (typeof referralStates)[number];

/** A client's way to a clinician and back, for findings of one screening. */
@Entity('referrals')
export class Referral extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  /** The screening that opened it. */
  @Column('uuid', { name: 'screening_id' })
  screeningId: string;

  @Column('text')
  route: string;

  /** By when the client should have been seen. */
  @Column('timestamptz', { name: 'due_at' })
  dueAt: Date;

  @Column('text', { default: 'opened' })
  state: ReferralState;

  /** When the studio was last told by mail that this is urgent. */
  @Column('timestamptz', { name: 'alerted_at', nullable: true })
  alertedAt: Date | null;

  @Column('timestamptz', { name: 'handed_over_at', nullable: true })
  handedOverAt: Date | null;

  @Column('text', { name: 'handed_over_how', nullable: true, transformer: sealedColumn })
  handedOverHow: string | null;

  /** The letter as it was handed over. */
  @Column('jsonb', { nullable: true, transformer: sealedColumn })
  letter: object | null;

  @Column('timestamptz', { name: 'acknowledged_at', nullable: true })
  acknowledgedAt: Date | null;

  @Column('text', { name: 'acknowledged_how', nullable: true, transformer: sealedColumn })
  acknowledgedHow: string | null;

  @Column('date', { name: 'answered_on', nullable: true })
  answeredOn: string | null;

  @Column('text', { nullable: true, transformer: sealedColumn })
  answer: string | null;

  @Column('text', { name: 'answering_clinician', nullable: true })
  answeringClinician: string | null;

  @Column('text', { name: 'answering_registration', nullable: true })
  answeringRegistration: string | null;

  @Column('timestamptz', { name: 'cleared_at', nullable: true })
  clearedAt: Date | null;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('text', { name: 'end_reason', nullable: true, transformer: sealedColumn })
  endReason: string | null;
}

/** A finding the case is about; a later screening's may join while nobody has answered. */
@Entity('referral_findings')
export class ReferralFinding extends RecordedRow {
  @Column('uuid', { name: 'referral_id' })
  referralId: string;

  @Column('uuid', { name: 'finding_id' })
  findingId: string;
}
