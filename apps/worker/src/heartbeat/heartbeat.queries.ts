import type { SqlRunner } from '@studio/database';

/** This worker lives. Those that ended without a word are forgotten after a day. */
export async function putHeartbeat(sql: SqlRunner, id: string): Promise<void> {
  await sql.query(
    `WITH forgotten AS (DELETE FROM worker_heartbeats WHERE beat_at < now() - interval '1 day')
     INSERT INTO worker_heartbeats (id) VALUES ($1) ON CONFLICT (id) DO UPDATE SET beat_at = now()`,
    [id],
  );
}

export async function deleteHeartbeat(sql: SqlRunner, id: string): Promise<void> {
  await sql.query('DELETE FROM worker_heartbeats WHERE id = $1', [id]);
}
