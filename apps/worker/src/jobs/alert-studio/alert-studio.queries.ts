import type { SqlRunner } from '@studio/database';

export interface Alerted {
  studioName: string;
  /** Addresses of the owners and fitters who may still sign in. */
  emails: string[];
}

export async function findAlerted(sql: SqlRunner, studioId: string): Promise<Alerted | null> {
  const rows = await sql.query<Alerted[]>(
    `SELECT s.name AS "studioName",
            ARRAY(SELECT u.email FROM users u
                   WHERE u.studio_id = s.id AND u.disabled_at IS NULL AND u.roles && ARRAY['owner', 'fitter']
                   ORDER BY u.id) AS emails
       FROM studios s WHERE s.id = $1`,
    [studioId],
  );
  return rows[0] ?? null;
}
