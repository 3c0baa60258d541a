import type { SqlRunner } from './sql-runner.js';

/**
 * A time is free, or will be at `at`: have the waiting list gone through then, in order. Where nobody waits nothing is
 * ordered.
 */
export async function offerFreedTime(
  sql: SqlRunner,
  { studioId, at }: { studioId: string; at?: Date },
): Promise<void> {
  await sql.query(
    `INSERT INTO outbox (studio_id, job, payload, available_at)
     SELECT $1, 'offer-freed-times', '{}', coalesce($2, app_now())
      WHERE EXISTS (SELECT FROM slot_wishes WHERE studio_id = $1 AND state IN ('waiting', 'offered'))`,
    [studioId, at ?? null],
  );
}
