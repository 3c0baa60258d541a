import type { AnswerState, Feel, SqlRunner } from '@studio/database';
import { choosesByChange, type Complaint, type Intervention, type ReviewQuery } from './review-query.dto.js';

/** What a review reads of a session. */
export interface ReviewedSession {
  clientId: string;
  /** Whether the change the review chooses by was made; true when it chooses by none. */
  chosen: boolean;
  answerState: AnswerState;
  painBefore: number | null;
  painAfter: number | null;
  comfortBefore: number | null;
  comfortAfter: number | null;
  numbnessBefore: boolean | null;
  numbnessAfter: boolean | null;
  power20MinBeforeW: number | null;
  power20MinAfterW: number | null;
  activitiesBefore: number | null;
  activitiesAfter: number | null;
  overallChange: number | null;
  walkingComfort: number | null;
  sprintFeel: Feel | null;
  standingFeel: Feel | null;
  saddleChangePredictedMm: number | null;
  saddleChangeLeftMm: number | null;
}

/** How large a change is one. House rules: above the error of setting it. */
const changed: Readonly<Record<Intervention, string>> = {
  cleat_back: 'o.cleat_moved_back_mm >= 2',
  midfoot: '(o.cleat_moved_back_mm >= 2 AND o.cleat_short_of_midfoot_mm <= 3)',
  saddle_height: 'abs(o.saddle_change_left_mm) >= 3',
  crank_length: 'abs(o.crank_change_mm) >= 1',
  leg_length: 'o.leg_length_option IS NOT NULL',
};

const complained: Readonly<Record<Complaint, string>> = {
  pain: 'o.pain_before > 0',
  numb_feet: 'o.numbness_before',
};

/** The room a session was booked in is at the site; a session without a booking is at none. */
const fittedAt = (siteId: string): string =>
  `EXISTS (SELECT FROM fit_sessions s
             JOIN appointments a ON a.studio_id = s.studio_id AND a.id = s.appointment_id
             JOIN rooms r ON r.studio_id = a.studio_id AND r.id = a.room_id
            WHERE s.studio_id = o.studio_id AND s.id = o.fit_session_id AND r.site_id = ${siteId})`;

const onABike = (condition: string): string =>
  `EXISTS (SELECT FROM fit_sessions s JOIN bikes b ON b.studio_id = s.studio_id AND b.id = s.bike_id
            WHERE s.studio_id = o.studio_id AND s.id = o.fit_session_id AND ${condition})`;

/**
 * Sessions whose follow-up has come due, oldest first; without `withOthers` only those with the change asked about.
 * A condition is written out only when it is asked for, so that the plan can use it.
 */
export function listReviewedSessions(
  sql: SqlRunner,
  group: ReviewQuery & { studioId: string; withOthers: boolean },
): Promise<ReviewedSession[]> {
  const values: unknown[] = [group.studioId];
  const value = (item: unknown): string => `$${values.push(item)}`;
  const midnight = (day: string, plusDays: number): string =>
    `(SELECT (${value(day)}::date + ${plusDays})::timestamp AT TIME ZONE time_zone FROM studios WHERE id = $1)`;

  const change = [
    ...(group.intervention === undefined ? [] : [changed[group.intervention]]),
    ...(group.cleatBackFromMm === undefined
      ? []
      : [`o.cleat_moved_back_mm >= ${value(group.cleatBackFromMm)}::int`]),
    ...(group.cleatBackBelowMm === undefined
      ? []
      : [`o.cleat_moved_back_mm < ${value(group.cleatBackBelowMm)}::int`]),
  ];
  const chosen = choosesByChange(group) ? `coalesce(${change.join(' AND ')}, false)` : 'true';
  const conditions = [
    'o.studio_id = $1 AND o.first_due_at <= app_now()',
    // Of persons who were erased there is no row any more, and their outcomes count on.
    'c.restricted_at IS NULL',
    ...(group.withOthers ? [] : [chosen]),
    ...(group.complaint === undefined ? [] : [complained[group.complaint]]),
    ...(group.from === undefined ? [] : [`o.signed_at >= ${midnight(group.from, 0)}`]),
    ...(group.until === undefined ? [] : [`o.signed_at < ${midnight(group.until, 1)}`]),
    ...(group.fitterId === undefined ? [] : [`o.fitter_id = ${value(group.fitterId)}`]),
    ...(group.siteId === undefined ? [] : [fittedAt(value(group.siteId))]),
    ...(group.bikeKind === undefined ? [] : [onABike(`b.kind = ${value(group.bikeKind)}`)]),
    ...(group.bikeUse === undefined ? [] : [onABike(`${value(group.bikeUse)} = ANY (b.uses)`)]),
  ];
  return sql.query<ReviewedSession[]>(
    `SELECT coalesce(c.merged_into, o.client_id) AS "clientId", ${chosen} AS chosen, o.answer_state AS "answerState",
            o.pain_before AS "painBefore", o.pain_after AS "painAfter",
            o.comfort_before AS "comfortBefore", o.comfort_after AS "comfortAfter",
            o.numbness_before AS "numbnessBefore", o.numbness_after AS "numbnessAfter",
            o.power_20_min_before_w AS "power20MinBeforeW", o.power_20_min_after_w AS "power20MinAfterW",
            o.activities_before AS "activitiesBefore", o.activities_after AS "activitiesAfter",
            o.overall_change AS "overallChange", o.walking_comfort AS "walkingComfort",
            o.sprint_feel AS "sprintFeel", o.standing_feel AS "standingFeel",
            o.saddle_change_predicted_mm + o.saddle_offset_mm AS "saddleChangePredictedMm",
            o.saddle_change_left_mm AS "saddleChangeLeftMm"
       FROM outcome_summaries o
       LEFT JOIN clients c ON c.studio_id = o.studio_id AND c.id = o.client_id
      WHERE ${conditions.join(' AND ')}
      ORDER BY o.signed_at, o.id`,
    values,
  );
}
