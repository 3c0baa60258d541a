import { readClock, type SqlRunner } from '@studio/database';

/** Outside any studio: the clock is the server's. */
export async function moveClock(sql: SqlRunner, seconds: number): Promise<Date> {
  await sql.query(
    `INSERT INTO test_clock (ahead_by) VALUES (make_interval(secs => $1))
       ON CONFLICT (only_row) DO UPDATE SET ahead_by = test_clock.ahead_by + excluded.ahead_by`,
    [seconds],
  );
  return readClock(sql);
}
