import { Column, Entity } from 'typeorm';
import { sealedColumn } from '../sealed-fields/sealed-fields.js';
import { RecordedRow } from './columns.js';

export const answerStates = ['answered', 'asked', 'waiting', 'not_asked'] as const;
/**
 * `asked`: mailed, no answer yet; `waiting`: nothing has gone out yet; `not_asked`: nothing could be sent, for want of
 * consent or an address.
 */
export type AnswerState = (typeof answerStates)[number];

export const feels = ['much_better', 'better', 'same', 'worse', 'much_worse', 'not_tried'] as const;
export type Feel = (typeof feels)[number];

/** A signed session's outcome, worked out by the worker from the record; can be made anew at any time. */
@Entity('outcome_summaries')
export class OutcomeSummary extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('uuid', { name: 'client_id' })
  clientId: string;

  @Column('timestamptz', { name: 'computed_at' })
  computedAt: Date;

  @Column('uuid', { name: 'fitter_id' })
  fitterId: string;

  @Column('timestamptz', { name: 'signed_at' })
  signedAt: Date;

  /** When somebody was first to be asked; null when no follow-up was planned. */
  @Column('timestamptz', { name: 'first_due_at', nullable: true })
  firstDueAt: Date | null;

  @Column('text', { name: 'answer_state' })
  answerState: AnswerState;

  /** The latest answered follow-up; null while there is none. */
  @Column('uuid', { name: 'follow_up_id', nullable: true })
  followUpId: string | null;

  @Column('smallint', { name: 'pain_before', nullable: true })
  painBefore: number | null;

  @Column('smallint', { name: 'pain_after', nullable: true })
  painAfter: number | null;

  @Column('smallint', { name: 'comfort_before', nullable: true })
  comfortBefore: number | null;

  @Column('smallint', { name: 'comfort_after', nullable: true })
  comfortAfter: number | null;

  @Column('boolean', { name: 'numbness_before', nullable: true })
  numbnessBefore: boolean | null;

  @Column('boolean', { name: 'numbness_after', nullable: true })
  numbnessAfter: boolean | null;

  @Column('double precision', { name: 'power_20_min_before_w', nullable: true })
  power20MinBeforeW: number | null;

  @Column('double precision', { name: 'power_20_min_after_w', nullable: true })
  power20MinAfterW: number | null;

  /** Mean of the rider's own activities, 0–10, of those told both times. */
  @Column('double precision', { name: 'activities_before', nullable: true })
  activitiesBefore: number | null;

  @Column('double precision', { name: 'activities_after', nullable: true })
  activitiesAfter: number | null;

  /** −5 to 5. */
  @Column('smallint', { name: 'overall_change', nullable: true })
  overallChange: number | null;

  /** In the cycling shoes, 0–10; nobody is asked before a fit. */
  @Column('smallint', { name: 'walking_comfort', nullable: true })
  walkingComfort: number | null;

  /** Against before the fit. */
  @Column('text', { name: 'sprint_feel', nullable: true })
  sprintFeel: Feel | null;

  /** Out of the saddle, against before the fit. */
  @Column('text', { name: 'standing_feel', nullable: true })
  standingFeel: Feel | null;

  /** By the formula, for the option chosen, mean of the sides planned. Negative is lower. */
  @Column('double precision', { name: 'saddle_change_predicted_mm', nullable: true })
  saddleChangePredictedMm: number | null;

  @Column('double precision', { name: 'saddle_change_left_mm', nullable: true })
  saddleChangeLeftMm: number | null;

  /** What the studio's own offset added to the prediction. */
  @Column('double precision', { name: 'saddle_offset_mm' })
  saddleOffsetMm: number;

  /** Between the positions found and left, mean of both feet; positive is rearward. */
  @Column('double precision', { name: 'cleat_moved_back_mm', nullable: true })
  cleatMovedBackMm: number | null;

  /** Of the position left, mean of the sides planned; 0 on the midfoot line, negative behind it. */
  @Column('double precision', { name: 'cleat_short_of_midfoot_mm', nullable: true })
  cleatShortOfMidfootMm: number | null;

  /** Mean over the turn and the sides planned; toe-down positive. */
  @Column('double precision', { name: 'foot_pitch_deg', nullable: true })
  footPitchDeg: number | null;

  /** Between the positions found and left; positive is longer. */
  @Column('double precision', { name: 'crank_change_mm', nullable: true })
  crankChangeMm: number | null;

  /** The option of the newest leg-length plan that was carried out. */
  @Column('text', { name: 'leg_length_option', nullable: true })
  legLengthOption: string | null;
}

/** What a client can be told of a session's outcome, with the values it was worked out from; never rewritten. */
@Entity('client_summaries')
export class ClientSummaryRow extends RecordedRow {
  @Column('uuid', { name: 'fit_session_id' })
  fitSessionId: string;

  @Column('integer')
  version: number;

  @Column('text', { name: 'method_version' })
  methodVersion: string;

  @Column('jsonb', { transformer: sealedColumn })
  inputs: object;

  @Column('jsonb', { transformer: sealedColumn })
  result: object;
}

/** What the owner had added to every predicted saddle change from then on; the newest version is in force. */
@Entity('saddle_offsets')
export class SaddleOffset extends RecordedRow {
  @Column('integer')
  version: number;

  @Column('double precision', { name: 'offset_mm' })
  offsetMm: number;

  @Column('text')
  because: string;

  @Column('uuid', { name: 'applied_by' })
  appliedBy: string;
}
