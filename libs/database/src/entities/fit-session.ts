import { Column, Entity } from 'typeorm';
import { sealedColumn, sealedItems } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

/** The stages of a visit; nothing forces their order. */
export const visitStages = ['interview', 'bench', 'on_the_bike', 'changes', 'hand_over'] as const;
export type VisitStage = (typeof visitStages)[number];

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

  /** Where in the visit one was last. */
  @Column('text', { name: 'place_stage', nullable: true })
  placeStage: VisitStage | null;

  @Column('text', { name: 'place_note', nullable: true, transformer: sealedColumn })
  placeNote: string | null;

  @Column('integer', { name: 'place_version', default: 0 })
  placeVersion: number;

  @Column('uuid', { name: 'place_device_id', nullable: true })
  placeDeviceId: string | null;

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

  @Column('integer', { default: 1 })
  version: number;

  /** The device that wrote it without a connection; null when it was written online. */
  @Column('uuid', { name: 'device_id', nullable: true })
  deviceId: string | null;
}

/** Readings of one thing; never deleted: one that does not hold is withdrawn, or corrected by another. */
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

  /** As typed, when it was typed with its unit, such as `16 3/8 in`; `repeats` holds it in the kind's own unit then. */
  @Column('text', { array: true, nullable: true })
  typed: string[] | null;

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

  @Column('timestamptz', { name: 'taken_at', default: () => 'app_now()' })
  takenAt: Date;

  /** The measurement it stands in place of. */
  @Column('uuid', { name: 'corrects_id', nullable: true })
  correctsId: string | null;

  @Column('timestamptz', { name: 'withdrawn_at', nullable: true })
  withdrawnAt: Date | null;

  @Column('uuid', { name: 'withdrawn_by', nullable: true })
  withdrawnBy: string | null;

  @Column('text', { name: 'withdrawal_reason', nullable: true, transformer: sealedColumn })
  withdrawalReason: string | null;
}

/** Where rider and bike were at a stage of the visit, figure by figure; null: not measured. Never overwritten. */
@Entity('positions')
export class Position extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  stage: 'found' | 'proposed' | 'left';

  /** From 1 in each stage. */
  @Column('integer', { default: 1 })
  version: number;

  /** When a newer version of the stage took its place; null while it stands. */
  @Column('timestamptz', { name: 'superseded_at', nullable: true })
  supersededAt: Date | null;

  /** Null in rows from before it was kept. */
  @Column('uuid', { name: 'taken_by', nullable: true })
  takenBy: string | null;

  @Column('timestamptz', { name: 'taken_at', default: () => 'app_now()' })
  takenAt: Date;

  /** The device that wrote it without a connection; null when it was written online. */
  @Column('uuid', { name: 'device_id', nullable: true })
  deviceId: string | null;

  /** By what each figure was measured: the property's name to the method. */
  @Column('jsonb', { default: {} })
  methods: object;

  /** Parts by kind under each foot; null: not looked at. */
  @Column('text', { name: 'hardware_left', array: true, nullable: true })
  hardwareLeft: string[] | null;

  @Column('text', { name: 'hardware_right', array: true, nullable: true })
  hardwareRight: string[] | null;

  /** Bottom bracket to saddle top, along the seat tube. */
  @Column('double precision', { name: 'saddle_height_mm', nullable: true })
  saddleHeightMm: number | null;

  /** Saddle tip behind the bottom bracket, horizontally. */
  @Column('double precision', { name: 'saddle_setback_mm', nullable: true })
  saddleSetbackMm: number | null;

  /** Where the saddle is 80 mm wide, behind the bottom bracket. */
  @Column('double precision', { name: 'saddle_setback_at80_mm', nullable: true })
  saddleSetbackAt80Mm: number | null;

  /** Nose up positive. */
  @Column('double precision', { name: 'saddle_tilt_deg', nullable: true })
  saddleTiltDeg: number | null;

  /** Saddle top above the bars, vertically; negative when the bars are higher. */
  @Column('double precision', { name: 'bar_drop_mm', nullable: true })
  barDropMm: number | null;

  /** Saddle tip to the bar centre, horizontally. */
  @Column('double precision', { name: 'bar_reach_mm', nullable: true })
  barReachMm: number | null;

  /** Saddle tip to the hollow of the hoods, or the grips, horizontally. */
  @Column('double precision', { name: 'hood_reach_mm', nullable: true })
  hoodReachMm: number | null;

  /** Saddle top above them, vertically. */
  @Column('double precision', { name: 'hood_drop_mm', nullable: true })
  hoodDropMm: number | null;

  /** Turned up positive. */
  @Column('double precision', { name: 'bar_tilt_deg', nullable: true })
  barTiltDeg: number | null;

  /** Centre to centre of the hoods, or of the grips. */
  @Column('double precision', { name: 'bar_width_mm', nullable: true })
  barWidthMm: number | null;

  @Column('double precision', { name: 'crank_length_mm', nullable: true })
  crankLengthMm: number | null;

  /** Cleat centre behind the first metatarsal head. */
  @Column('double precision', { name: 'cleat_behind_mth1_left_mm', nullable: true })
  cleatBehindMth1LeftMm: number | null;

  @Column('double precision', { name: 'cleat_behind_mth1_right_mm', nullable: true })
  cleatBehindMth1RightMm: number | null;

  /** Nose of the shoe back to the cleat centre. */
  @Column('double precision', { name: 'cleat_from_nose_left_mm', nullable: true })
  cleatFromNoseLeftMm: number | null;

  @Column('double precision', { name: 'cleat_from_nose_right_mm', nullable: true })
  cleatFromNoseRightMm: number | null;

  /** Toe out positive. */
  @Column('double precision', { name: 'cleat_rotation_left_deg', nullable: true })
  cleatRotationLeftDeg: number | null;

  @Column('double precision', { name: 'cleat_rotation_right_deg', nullable: true })
  cleatRotationRightDeg: number | null;

  /** Middle of the foot outside the middle of the pedal. */
  @Column('double precision', { name: 'cleat_outward_left_mm', nullable: true })
  cleatOutwardLeftMm: number | null;

  @Column('double precision', { name: 'cleat_outward_right_mm', nullable: true })
  cleatOutwardRightMm: number | null;

  /** Stack of shims under the cleat. */
  @Column('double precision', { name: 'shim_left_mm', nullable: true })
  shimLeftMm: number | null;

  @Column('double precision', { name: 'shim_right_mm', nullable: true })
  shimRightMm: number | null;
}

/** What the rider is told of the first weeks: as it was suggested, or as the fitter wrote it for this rider. */
@Entity('session_advice')
export class SessionAdvice extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  /** The stage it was suggested for, by how far a cleat went, and the version of the texts. */
  @Column('text')
  stage: string;

  @Column('integer', { name: 'advice_version' })
  adviceVersion: number;

  @Column('text')
  language: 'en' | 'de';

  @Column('text', { array: true, transformer: sealedItems })
  items: string[];

  /** Null: as it was suggested. */
  @Column('uuid', { name: 'written_by', nullable: true })
  writtenBy: string | null;

  @Column('integer', { default: 1 })
  version: number;
}

/** A correction beside a signed record. */
@Entity('amendments')
export class Amendment extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text', { transformer: sealedColumn })
  text: string;

  @Column('uuid', { name: 'written_by' })
  writtenBy: string;
}

/** How long a stage took: one of several spans. */
@Entity('stage_spans')
export class StageSpan extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('text')
  stage: VisitStage;

  @Column('timestamptz', { name: 'started_at' })
  startedAt: Date;

  @Column('uuid', { name: 'started_by' })
  startedBy: string;

  /** Null: running. */
  @Column('timestamptz', { name: 'stopped_at', nullable: true })
  stoppedAt: Date | null;

  @Column('uuid', { name: 'stopped_by', nullable: true })
  stoppedBy: string | null;
}

/** One step of the log of changes, and what the rider said right after it. */
@Entity('fit_changes')
export class FitChange extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  /** From 1, in the order they were made. */
  @Column('integer')
  number: number;

  /** What was changed from what to what; more than one is marked. */
  @Column('jsonb')
  items: object[];

  @Column('boolean', { name: 'several_at_once' })
  severalAtOnce: boolean;

  @Column('text', { transformer: sealedColumn })
  why: string;

  @Column('uuid', { name: 'made_by' })
  madeBy: string;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  /** 0: not asked yet. */
  @Column('integer', { name: 'response_version', default: 0 })
  responseVersion: number;

  @Column('uuid', { name: 'response_device_id', nullable: true })
  responseDeviceId: string | null;

  @Column('timestamptz', { name: 'responded_at', nullable: true })
  respondedAt: Date | null;

  /** 0–100. */
  @Column('smallint', { nullable: true })
  comfort: number | null;

  /** 0–10 by body site. */
  @Column('jsonb', { nullable: true, transformer: sealedColumn })
  pains: object[] | null;

  @Column('text', { nullable: true, transformer: sealedColumn })
  remarks: string | null;

  @Column('double precision', { name: 'power_w', nullable: true })
  powerW: number | null;

  @Column('double precision', { name: 'heart_rate_bpm', nullable: true })
  heartRateBpm: number | null;
}

/** What a rider complained of on the bike, and the screening it led to. */
@Entity('session_complaints')
export class SessionComplaint extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('uuid', { name: 'screening_id' })
  screeningId: string;

  /** The change right before it. */
  @Column('uuid', { name: 'change_id', nullable: true })
  changeId: string | null;

  @Column('text', { nullable: true, transformer: sealedColumn })
  remarks: string | null;

  /** Body sites it names. */
  @Column('text', { array: true })
  sites: string[];

  @Column('uuid', { name: 'told_by' })
  toldBy: string;

  @Column('timestamptz', { name: 'told_at' })
  toldAt: Date;
}

/** A write to a session, in the order of being carried out; from a device, with its own count. */
@Entity('session_operations')
export class SessionOperation extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  /** Its place among all of the session, from 1; null while it waits. */
  @Column('integer', { nullable: true })
  number: number | null;

  /** Null: written online. */
  @Column('uuid', { name: 'device_id', nullable: true })
  deviceId: string | null;

  /** From 1, by device. */
  @Column('integer', { nullable: true })
  sequence: number | null;

  @Column('text')
  kind: string;

  @Column('jsonb', { transformer: sealedColumn })
  payload: object;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  @Column('uuid', { name: 'sent_by' })
  sentBy: string;

  /** `waiting`: one before it has not come yet. */
  @Column('text')
  state: 'waiting' | 'applied' | 'refused' | 'conflict';

  /** What was answered, and is answered again. */
  @Column('jsonb', { nullable: true, transformer: sealedColumn })
  answer: object | null;
}
