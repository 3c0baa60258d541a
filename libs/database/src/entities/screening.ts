import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

export const screeningOccasions = ['intake', 'session_start', 'during_session', 'follow_up'] as const;
export type ScreeningOccasion = (typeof screeningOccasions)[number];

/** Answers as given and what the rules of that day made of them; never rewritten. */
@Entity('screenings')
export class Screening extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('text')
  occasion: ScreeningOccasion;

  @Column('text', { name: 'question_set_id' })
  questionSetId: string;

  @Column('text', { name: 'question_set_version' })
  questionSetVersion: string;

  @Column('jsonb', { transformer: sealedColumn })
  answers: object;

  @Column('text', { name: 'rule_set_version' })
  ruleSetVersion: string;

  /** The whole result of the evaluation, findings in order. */
  @Column('jsonb', { transformer: sealedColumn })
  result: object;

  /** The same with only the findings that bar or may bar something; null where a screening is older than this column. */
  @Column('jsonb', { transformer: sealedColumn, nullable: true })
  weighed: object | null;

  @Column('text', { name: 'permission_level' })
  permissionLevel: string;

  /** Null when the client answered through a one-time link. */
  @Column('uuid', { name: 'taken_by', nullable: true })
  takenBy: string | null;
}

/** A finding a screening raised, so that it can be named, referred and cleared; what it says is in the result. */
@Entity('findings')
export class FindingRow extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'screening_id' })
  screeningId: string;

  @Column('text', { name: 'rule_id' })
  ruleId: string;
}

/** A fitter's record that a clinician cleared findings, for what, until when, and why. */
@Entity('clearances')
export class Clearance extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'screening_id' })
  screeningId: string;

  @Column('text', { transformer: sealedColumn })
  reason: string;

  /** Who cleared: name of the clinician, as told to the fitter. */
  @Column('text', { name: 'cleared_by_clinician' })
  clearedByClinician: string;

  @Column('text', { nullable: true })
  registration: string | null;

  /** The activities it allows again. */
  @Column('text', { array: true })
  scope: string[];

  /** Null: without an end. */
  @Column('timestamptz', { name: 'valid_until', nullable: true })
  validUntil: Date | null;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}

/** Exactly the findings a clearance speaks of. */
@Entity('cleared_findings')
export class ClearedFinding extends RecordedRow {
  @Column('uuid', { name: 'clearance_id' })
  clearanceId: string;

  @Column('uuid', { name: 'finding_id' })
  findingId: string;
}

/** A clinician's signature under a version of the rules, as the owner was given it. */
@Entity('rule_set_sign_offs')
export class RuleSetSignOff extends RecordedRow {
  @Column('text', { name: 'rule_set_version' })
  ruleSetVersion: string;

  @Column('text', { name: 'clinician_name' })
  clinicianName: string;

  @Column('text')
  registration: string;

  @Column('date', { name: 'signed_on' })
  signedOn: string;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}
