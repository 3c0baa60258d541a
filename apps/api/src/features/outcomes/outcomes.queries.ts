import type { SqlRunner } from '@studio/database';
import type { OutcomeResponse } from './outcomes.dto.js';

const columns = `id, fit_session_id AS "fitSessionId", client_id AS "clientId",
  to_char(computed_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "computedAt",
  pain_before AS "painBefore", pain_after AS "painAfter",
  comfort_before AS "comfortBefore", comfort_after AS "comfortAfter",
  numbness_before AS "numbnessBefore", numbness_after AS "numbnessAfter",
  power_20_min_before_w AS "power20MinBeforeW", power_20_min_after_w AS "power20MinAfterW",
  saddle_change_predicted_mm + saddle_offset_mm AS "saddleChangePredictedMm", saddle_change_left_mm AS "saddleChangeLeftMm"`;

/** Of the sessions somebody answered for, but of nobody whose record is only kept. */
export function listOutcomes(
  sql: SqlRunner,
  page: { studioId: string; after: string | null; limit: number },
): Promise<OutcomeResponse[]> {
  return sql.query<OutcomeResponse[]>(
    `SELECT ${columns} FROM outcome_summaries o
      WHERE studio_id = $1 AND answer_state = 'answered' AND ($2::uuid IS NULL OR id > $2)
        AND NOT EXISTS (SELECT FROM clients c
                         WHERE c.studio_id = o.studio_id AND c.id = o.client_id AND c.restricted_at IS NOT NULL)
      ORDER BY id LIMIT $3`,
    [page.studioId, page.after, page.limit],
  );
}

export async function findOutcome(
  sql: SqlRunner,
  key: { studioId: string; fitSessionId: string },
): Promise<OutcomeResponse | null> {
  const rows = await sql.query<OutcomeResponse[]>(
    `SELECT ${columns} FROM outcome_summaries
      WHERE studio_id = $1 AND fit_session_id = $2 AND answer_state = 'answered'`,
    [key.studioId, key.fitSessionId],
  );
  return rows[0] ?? null;
}
