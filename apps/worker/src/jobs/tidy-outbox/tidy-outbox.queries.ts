import type { EntityManager } from 'typeorm';

/** What was given up and not set aside stays: somebody has to look at it. */
export async function forgetOrders(
  tx: EntityManager,
  { studioId, olderThanDays }: { studioId: string; olderThanDays: number },
): Promise<void> {
  await tx.query(
    `DELETE FROM outbox
      WHERE studio_id = $1 AND coalesce(done_at, discarded_at) < app_now() - make_interval(days => $2)`,
    [studioId, olderThanDays],
  );
}
