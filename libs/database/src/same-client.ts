import type { SqlRunner } from './sql-runner.js';

/** The ids of all records of the person; none when the studio has no such client. */
export async function sameClientIds(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<string[]> {
  const rows = await sql.query<{ id: string }[]>('SELECT id FROM app_same_client($1, $2) AS same (id)', [
    of.studioId,
    of.clientId,
  ]);
  return rows.map(({ id }) => id);
}
