import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

/** An owner's word that somebody of the studio is a licensed clinician, as they found it in the register. */
@Entity('clinician_marks')
export class ClinicianMark extends RecordedRow {
  @Column('uuid', { name: 'user_id' })
  userId: string;

  /** As the register says it: the body, the number. */
  @Column('text')
  registration: string;

  /** The day the owner looked it up. */
  @Column('date', { name: 'checked_on' })
  checkedOn: string;

  @Column('uuid', { name: 'given_by' })
  givenBy: string;

  /** Null while it stands; a person has one that does. */
  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('uuid', { name: 'ended_by', nullable: true })
  endedBy: string | null;
}

export const clinicianScoreKinds = [
  'two_level_dvt',
  'ankle_brachial_index',
  'exercise_index',
  'claudication_questions',
  'neuropathy_questionnaire',
  'ankle_injury',
  'knee_injury',
] as const;
export type ClinicianScoreKind = (typeof clinicianScoreKinds)[number];

/** What a licensed clinician found and what it comes to; what follows from it is in the screening. Never rewritten. */
@Entity('clinician_scores')
export class ClinicianScoreRow extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'screening_id' })
  screeningId: string;

  @Column('text')
  kind: ClinicianScoreKind;

  @Column('jsonb', { transformer: sealedColumn })
  found: object;

  @Column('jsonb', { transformer: sealedColumn })
  result: object;

  /** By whom, under which registration. */
  @Column('uuid', { name: 'clinician_mark_id' })
  clinicianMarkId: string;
}
