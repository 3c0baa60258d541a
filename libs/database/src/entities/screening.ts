import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

export const screeningOccasions = ['intake', 'follow_up'] as const;
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

  @Column('jsonb')
  answers: object;

  @Column('text', { name: 'rule_set_version' })
  ruleSetVersion: string;

  /** The whole result of the evaluation, findings in order. */
  @Column('jsonb')
  result: object;

  @Column('text', { name: 'permission_level' })
  permissionLevel: string;

  /** Null when the client answered through a one-time link. */
  @Column('uuid', { name: 'taken_by', nullable: true })
  takenBy: string | null;
}

/** A fitter's record that a screening's findings were cleared, and why. */
@Entity('clearances')
export class Clearance extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'screening_id' })
  screeningId: string;

  @Column('text')
  reason: string;

  /** Who cleared: name and registration of the clinician, as told to the fitter. */
  @Column('text', { name: 'cleared_by_clinician' })
  clearedByClinician: string;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}
