import type { SqlRunner } from '@studio/database';
import type { ClientSummaryResponse } from './client-summary.dto.js';

/** One version, or the newest. */
export async function findClientSummary(
  sql: SqlRunner,
  key: { studioId: string; fitSessionId: string; version: number | null },
): Promise<ClientSummaryResponse | null> {
  const rows = await sql.query<
    (Pick<ClientSummaryResponse, 'fitSessionId' | 'version' | 'methodVersion' | 'createdAt'> & {
      result: Omit<ClientSummaryResponse, 'fitSessionId' | 'version' | 'methodVersion' | 'createdAt'>;
    })[]
  >(
    `SELECT fit_session_id AS "fitSessionId", version, method_version AS "methodVersion",
            to_char(created_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "createdAt", result
       FROM client_summaries
      WHERE studio_id = $1 AND fit_session_id = $2 AND ($3::int IS NULL OR version = $3)
      ORDER BY version DESC LIMIT 1`,
    [key.studioId, key.fitSessionId, key.version],
  );
  const row = rows[0];
  if (!row) return null;
  const { result, ...about } = row;
  return { ...about, ...result };
}
