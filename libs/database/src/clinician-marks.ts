import type { SqlRunner } from './sql-runner.js';

export interface StandingMark {
  readonly id: string;
  readonly displayName: string;
  readonly registration: string;
}

/** The mark of a licensed clinician that somebody has now; null when none stands. */
export async function findClinicianMark(
  sql: SqlRunner,
  { studioId, userId }: { studioId: string; userId: string },
): Promise<StandingMark | null> {
  const rows = await sql.query<StandingMark[]>(
    `SELECT m.id, u.display_name AS "displayName", m.registration
       FROM clinician_marks m JOIN users u ON u.studio_id = m.studio_id AND u.id = m.user_id
      WHERE m.studio_id = $1 AND m.user_id = $2 AND m.ended_at IS NULL`,
    [studioId, userId],
  );
  return rows[0] ?? null;
}
