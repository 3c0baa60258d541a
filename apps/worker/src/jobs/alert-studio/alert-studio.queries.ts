import type { SqlRunner } from '@studio/database';

/**
 * The owners and fitters who may still sign in; null when the order was carried out already. The order is locked, so
 * that a second handler of it finds what the first has done.
 */
export async function listWhoMayAct(
  sql: SqlRunner,
  order: { studioId: string; outboxId: string },
): Promise<string[] | null> {
  const orders = await sql.query<{ done: boolean }[]>(
    `SELECT done_at IS NOT NULL AS done FROM outbox WHERE studio_id = $1 AND id = $2 FOR UPDATE`,
    [order.studioId, order.outboxId],
  );
  if (orders[0]?.done !== false) return null;
  const users = await sql.query<{ id: string }[]>(
    `SELECT id FROM users
      WHERE studio_id = $1 AND disabled_at IS NULL AND roles && ARRAY['owner', 'fitter'] ORDER BY id`,
    [order.studioId],
  );
  return users.map(({ id }) => id);
}
