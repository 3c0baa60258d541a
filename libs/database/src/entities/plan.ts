import { Column, Entity } from 'typeorm';
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

  @Column('text', { name: 'chosen_because', nullable: true })
  chosenBecause: string | null;

  @Column('uuid', { name: 'chosen_by', nullable: true })
  chosenBy: string | null;

  @Column('timestamptz', { name: 'chosen_at', nullable: true })
  chosenAt: Date | null;
}
