import { opened, type SqlRunner } from '@studio/database';
import type { ClientSummaryResponse, ReportAtResponse } from './client-summary.dto.js';

type About = 'fitSessionId' | 'version' | 'methodVersion' | 'createdAt';
type SinceSecondMethod = 'chosenActivities' | 'overallChange';
type Stored = Omit<ClientSummaryResponse, About | 'told' | 'course'> & {
  told?: ClientSummaryResponse['told'];
  course: (Omit<ReportAtResponse, SinceSecondMethod> & Partial<Pick<ReportAtResponse, SinceSecondMethod>>)[];
};

/** One version, or the newest. */
export async function findClientSummary(
  sql: SqlRunner,
  key: { studioId: string; fitSessionId: string; version: number | null },
): Promise<ClientSummaryResponse | null> {
  const rows = await sql.query<(Pick<ClientSummaryResponse, About> & { result: Stored })[]>(
    `SELECT fit_session_id AS "fitSessionId", version, method_version AS "methodVersion",
            to_char(created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "createdAt", result
       FROM client_summaries
      WHERE studio_id = $1 AND fit_session_id = $2 AND ($3::int IS NULL OR version = $3)
      ORDER BY version DESC LIMIT 1`,
    [key.studioId, key.fitSessionId, key.version],
  );
  const [row] = opened(rows, 'result');
  if (!row) return null;
  const { result, ...about } = row;
  return { ...about, ...result, told: result.told ?? nothingTold, course: result.course.map(whole) };
}

/** A summary by the first method knows less. */
const nothingTold = { walkingComfort: null, sprintFeel: null, standingFeel: null };
const whole = (point: Stored['course'][number]): ReportAtResponse => ({
  ...{ chosenActivities: null, overallChange: null },
  ...point,
});
