import type { SqlRunner } from './sql-runner.js';

/** What time it is: the database's clock, which tests may set. */
export async function readClock(sql: SqlRunner): Promise<Date> {
  const [{ now }] = await sql.query<[{ now: Date }]>('SELECT app_now() AS now');
  return now;
}

/** The studio's name, what time it is, and by which clock on its wall. */
export async function studioClock(
  sql: SqlRunner,
  studioId: string,
): Promise<{ name: string; timeZone: string; now: Date }> {
  const [clock] = await sql.query<[{ name: string; timeZone: string; now: Date }]>(
    'SELECT name, time_zone AS "timeZone", app_now() AS now FROM studios WHERE id = $1',
    [studioId],
  );
  return clock;
}
