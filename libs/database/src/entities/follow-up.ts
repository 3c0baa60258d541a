import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

export type FollowUpState =
  | 'scheduled'
  | 'sent'
  | 'reminded'
  | 'phoned'
  | 'answered'
  | 'unanswered'
  | 'cancelled'
  | 'skipped';

/** A studio's own plan in one version; steps as data. */
@Entity('follow_up_plans')
export class FollowUpPlanRow extends RecordedRow {
  /** The same in all its versions. */
  @Column('text', { name: 'plan_id' })
  planId: string;

  @Column('integer')
  version: number;

  @Column('text')
  name: string;

  @Column('jsonb')
  steps: object[];

  @Column('uuid', { name: 'created_by' })
  createdBy: string;
}

/** One time a client is asked how it went after a fit. */
@Entity('follow_ups')
export class FollowUp extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('uuid', { name: 'client_id' })
  clientId: string;

  /** The plan it came from; null when a person added it. */
  @Column('text', { name: 'plan_id', nullable: true })
  planId: string | null;

  @Column('integer', { name: 'plan_version', nullable: true })
  planVersion: number | null;

  /** Whether a person chose the plan; what was chosen by default may be chosen anew. */
  @Column('boolean', { name: 'plan_by_person', default: false })
  planByPerson: boolean;

  @Column('text', { name: 'step_id' })
  stepId: string;

  /** The step as it was promised: questions, window, what is done without an answer. */
  @Column('jsonb')
  step: object;

  /** The visit it counts from; null when it counts from the signature. */
  @Column('uuid', { name: 'from_appointment_id', nullable: true })
  fromAppointmentId: string | null;

  /** Due so many days after, by the calendar; and in whole weeks, rounded. */
  @Column('smallint', { name: 'days_after' })
  daysAfter: number;

  @Column('smallint')
  week: number;

  @Column('timestamptz', { name: 'due_at' })
  dueAt: Date;

  /** Moved, added or skipped by a person. */
  @Column('boolean', { name: 'by_hand', default: false })
  byHand: boolean;

  /** False for an early look that says nothing yet of the outcome. */
  @Column('boolean', { name: 'counts_as_outcome', default: true })
  countsAsOutcome: boolean;

  @Column('text', { default: 'scheduled' })
  state: FollowUpState;

  /** Why it was cancelled or skipped, or could only be asked by phone. */
  @Column('text', { name: 'state_reason', nullable: true })
  stateReason: string | null;

  /** Raised by every change a person makes. */
  @Column('integer', { default: 1 })
  version: number;

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

  @Column('timestamptz', { name: 'reminded_at', nullable: true })
  remindedAt: Date | null;

  /** When somebody was told to phone. */
  @Column('timestamptz', { name: 'phoned_at', nullable: true })
  phonedAt: Date | null;

  /** When it was given up. */
  @Column('timestamptz', { name: 'closed_at', nullable: true })
  closedAt: Date | null;

  @Column('timestamptz', { name: 'answered_at', nullable: true })
  answeredAt: Date | null;

  /** Saved page by page until they are handed in. */
  @Column('jsonb', { default: {}, transformer: sealedColumn })
  draft: Record<string, unknown>;

  /** Urgent rules whose advice the client was shown already, and the studio told of. */
  @Column('text', { name: 'urgent_rules', array: true, default: [] })
  urgentRules: string[];

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

export const followUpChanges = ['move', 'skip', 'add', 'plan', 'appointment', 'consent'] as const;
export type FollowUpChangeKind = (typeof followUpChanges)[number];

/** What was changed about a follow-up before it was asked, by whom and why; never rewritten. */
@Entity('follow_up_changes')
export class FollowUpChange extends RecordedRow {
  @Column('uuid', { name: 'follow_up_id' })
  followUpId: string;

  @Column('text')
  kind: FollowUpChangeKind;

  @Column('text', { nullable: true })
  reason: string | null;

  @Column('timestamptz', { name: 'due_before', nullable: true })
  dueBefore: Date | null;

  @Column('timestamptz', { name: 'due_after', nullable: true })
  dueAfter: Date | null;

  @Column('text', { name: 'state_after' })
  stateAfter: FollowUpState;

  /** Null when it followed from something else by itself. */
  @Column('uuid', { name: 'changed_by', nullable: true })
  changedBy: string | null;
}

/** One answer to one question of a follow-up. */
@Entity('follow_up_answers')
export class FollowUpAnswer extends RecordedRow {
  @Column('uuid', { name: 'follow_up_id' })
  followUpId: string;

  /** The question's id, or `id@site`. */
  @Column('text')
  question: string;

  @Column('jsonb', { transformer: sealedColumn })
  answer: unknown;
}

/** Something the rider named before the fit and is asked about again: own words, and how well it went then. */
@Entity('chosen_activities')
export class ChosenActivity extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  /** 1–3, as they were named. */
  @Column('smallint')
  position: number;

  @Column('text', { transformer: sealedColumn })
  activity: string;

  /** 0–10 before the fit. */
  @Column('smallint')
  ability: number;
}

/** What was read from a ride recording the client sent with a follow-up; the recording is a file of the client. */
@Entity('ride_recordings')
export class RideRecordingRow extends RecordedRow {
  @Column('uuid', { name: 'follow_up_id' })
  followUpId: string;

  @Column('uuid', { name: 'file_id' })
  fileId: string;

  @Column('text')
  format: 'fit' | 'tcx' | 'gpx' | 'csv';

  /** By the device's clock. */
  @Column('timestamptz', { name: 'started_at' })
  startedAt: Date;

  @Column('integer', { name: 'duration_s' })
  durationS: number;

  /** Null: none could be read; `power20MinWords` says why. */
  @Column('double precision', { name: 'power_20_min_w', nullable: true })
  power20MinW: number | null;

  @Column('text', { name: 'power_20_min_words' })
  power20MinWords: string;

  /** Highest second. */
  @Column('double precision', { name: 'sprint_peak_w', nullable: true })
  sprintPeakW: number | null;

  /** Highest five seconds in a row. */
  @Column('double precision', { name: 'sprint_5_s_w', nullable: true })
  sprint5sW: number | null;

  /** What the reader of the recording should know about it. */
  @Column('jsonb')
  notes: string[];
}
