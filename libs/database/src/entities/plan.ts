import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

export const planKinds = [
  'cleat',
  'saddle_height',
  'saddle_swap',
  'setback',
  'leg_length',
  'crank',
  'transfer',
  'second_bike',
  'air',
] as const;
export type PlanKind = (typeof planKinds)[number];

/** A computed plan as it was made; neither a later fit nor a later formula rewrites it. An option is chosen once. */
@Entity('plans')
export class Plan extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  kind: PlanKind;

  /** Null: of no side. */
  @Column('text', { nullable: true })
  side: 'left' | 'right' | null;

  /** What was computed with: from the record and what the fitter added. */
  @Column('jsonb')
  inputs: object;

  /** Where the foot's pitch among the inputs is from, leg by leg: a recording of motion, or a measurement. */
  @Column('jsonb', { name: 'foot_pitch_from', default: [] })
  footPitchFrom: object[];

  /** What the fitter added. */
  @Column('jsonb', { default: {} })
  added: object;

  @Column('jsonb')
  result: object;

  @Column('text', { name: 'formula_version' })
  formulaVersion: string;

  /** The studio's own offset at that time, which the prediction of the saddle carries beside the formula. */
  @Column('double precision', { name: 'saddle_offset_mm', default: 0 })
  saddleOffsetMm: number;

  /** Null in plans from before it was kept. */
  @Column('uuid', { name: 'planned_by', nullable: true })
  plannedBy: string | null;

  /** The option of the result that was carried out, and why. */
  @Column('text', { name: 'chosen_option', nullable: true })
  chosenOption: string | null;

  @Column('text', { name: 'chosen_because', nullable: true, transformer: sealedColumn })
  chosenBecause: string | null;

  @Column('uuid', { name: 'chosen_by', nullable: true })
  chosenBy: string | null;

  @Column('timestamptz', { name: 'chosen_at', nullable: true })
  chosenAt: Date | null;
}

/** A position carried over to a second bike or pair of shoes, as it was worked out. Insert and select only. */
@Entity('paired_positions')
export class PairedPosition extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  /** Whose position as left, or else the newest, is carried over. */
  @Column('uuid', { name: 'first_session_id' })
  firstSessionId: string;

  @Column('text', { name: 'first_use' })
  firstUse: string;

  @Column('uuid', { name: 'second_bike_id' })
  secondBikeId: string;

  @Column('uuid', { name: 'second_shoe_id' })
  secondShoeId: string;

  /** Where the second was measured; null: it was not. */
  @Column('uuid', { name: 'second_session_id', nullable: true })
  secondSessionId: string | null;

  @Column('text', { name: 'second_use' })
  secondUse: string;

  /** Whose leg the saddle is worked out with; null: nothing asks for it. */
  @Column('text', { nullable: true })
  side: 'left' | 'right' | null;

  @Column('jsonb')
  inputs: object;

  /** As with a plan. */
  @Column('jsonb', { name: 'foot_pitch_from' })
  footPitchFrom: object[];

  @Column('jsonb')
  result: object;

  @Column('text', { name: 'formula_version' })
  formulaVersion: string;

  @Column('text', { transformer: sealedColumn })
  because: string;

  @Column('uuid', { name: 'planned_by' })
  plannedBy: string;
}
