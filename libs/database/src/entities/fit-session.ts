import { Column, Entity } from 'typeorm';
import { RecordedRow } from './columns.js';

/** One visit's record for one bike and one pair of shoes. Signed, it is final. */
@Entity('fit_sessions')
export class FitSession extends RecordedRow {
  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('uuid', { name: 'bike_id' })
  bikeId: string;

  @Column('uuid', { name: 'shoe_id' })
  shoeId: string;

  @Column('uuid', { name: 'appointment_id', nullable: true })
  appointmentId: string | null;

  @Column('uuid', { name: 'fitter_id' })
  fitterId: string;

  /** The screening that allowed the session to open. */
  @Column('uuid', { name: 'screening_id' })
  screeningId: string;

  @Column('integer', { default: 1 })
  version: number;

  @Column('timestamptz', { name: 'signed_at', nullable: true })
  signedAt: Date | null;

  @Column('uuid', { name: 'signed_by', nullable: true })
  signedBy: string | null;

  /** SHA-256 over the record as signed, canonical JSON (RFC 8785). */
  @Column('text', { name: 'content_hash', nullable: true })
  contentHash: string | null;
}

/** How the rider was before anything was changed: what follow-ups are compared with. */
@Entity('baselines')
export class Baseline extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  /** 0–10. */
  @Column('smallint', { nullable: true })
  pain: number | null;

  /** 0–100. */
  @Column('smallint', { nullable: true })
  comfort: number | null;

  @Column('boolean', { nullable: true })
  numbness: boolean | null;

  @Column('double precision', { name: 'power_20_min_w', nullable: true })
  power20MinW: number | null;
}

@Entity('measurements')
export class Measurement extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  /** A measurement kind of fit-math. */
  @Column('text')
  kind: string;

  @Column('text', { nullable: true })
  side: 'left' | 'right' | null;

  @Column('text')
  method: string;

  /** As typed, in `unit`. */
  @Column('double precision', { array: true })
  repeats: number[];

  @Column('text')
  unit: string;

  /** Mean of the repeats in the kind's own unit (mm or degree). */
  @Column('double precision')
  mean: number;

  /** Standard error of the mean in the kind's own unit. */
  @Column('double precision')
  error: number;

  /** Why the value is implausible, when it is. */
  @Column('text', { nullable: true })
  warning: string | null;

  @Column('uuid', { name: 'taken_by' })
  takenBy: string;
}

@Entity('positions')
export class Position extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  stage: 'found' | 'left';

  /** Bottom bracket to saddle top, along the seat tube. */
  @Column('double precision', { name: 'saddle_height_mm' })
  saddleHeightMm: number;

  /** Saddle tip behind the bottom bracket, horizontally. */
  @Column('double precision', { name: 'saddle_setback_mm' })
  saddleSetbackMm: number;

  /** Saddle top above the bars, vertically; negative when the bars are higher. */
  @Column('double precision', { name: 'bar_drop_mm' })
  barDropMm: number;

  /** Saddle tip to the bar centre, horizontally. */
  @Column('double precision', { name: 'bar_reach_mm' })
  barReachMm: number;

  /** Cleat centre behind the first metatarsal head. */
  @Column('double precision', { name: 'cleat_behind_mth1_left_mm' })
  cleatBehindMth1LeftMm: number;

  @Column('double precision', { name: 'cleat_behind_mth1_right_mm' })
  cleatBehindMth1RightMm: number;
}

/** A computed plan with its inputs; a later fit never rewrites it. */
@Entity('cleat_plans')
export class CleatPlanRow extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  side: 'left' | 'right';

  @Column('jsonb')
  inputs: object;

  @Column('jsonb')
  result: object;

  @Column('text', { name: 'formula_version' })
  formulaVersion: string;

  /** The studio's own offset at that time, which the prediction of the saddle carries beside the formula. */
  @Column('double precision', { name: 'saddle_offset_mm', default: 0 })
  saddleOffsetMm: number;

  /** The option of the result that was carried out, and why. */
  @Column('text', { name: 'chosen_option', nullable: true })
  chosenOption: string | null;

  @Column('text', { name: 'chosen_because', nullable: true })
  chosenBecause: string | null;
}

/** A correction beside a signed record. */
@Entity('amendments')
export class Amendment extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  text: string;

  @Column('uuid', { name: 'written_by' })
  writtenBy: string;
}
