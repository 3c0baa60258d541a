import type { SqlRunner } from './sql-runner.js';

/**
 * SQL for the id a client's record is known by now: the one it was merged into, or its own. By CASE, since PostgreSQL does not
 * take COALESCE for leakproof, and under row-level security looks up no index by it.
 *
 * @param record alias of the table
 */
export const survivorOf = (record: string): string =>
  `CASE WHEN ${record}.merged_into IS NULL THEN ${record}.id ELSE ${record}.merged_into END`;

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
