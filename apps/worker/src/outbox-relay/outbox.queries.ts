import type { JobName } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';

export interface DueRow {
  studioId: string;
  outboxId: string;
  job: JobName;
  payload: object;
}

/**
 * Rows whose time has come, of every studio, locked for this relay; other relays pass over them. A row handed out
 * long ago and still not done comes again: Redis may have lost it, and if not, the queue knows its id.
 */
export function claimDue(
  tx: EntityManager,
  options: { limit: number; handAgainAfterSeconds: number },
): Promise<DueRow[]> {
  return tx.query<DueRow[]>(
    `SELECT studio_id AS "studioId", id AS "outboxId", job, payload FROM outbox
      WHERE done_at IS NULL AND gave_up_at IS NULL AND available_at <= app_now()
        AND (relayed_at IS NULL OR relayed_at < now() - make_interval(secs => $2))
      ORDER BY available_at LIMIT $1
      FOR UPDATE SKIP LOCKED`,
    [options.limit, options.handAgainAfterSeconds],
  );
}

export async function markRelayed(tx: EntityManager, rows: readonly DueRow[]): Promise<void> {
  await tx.query(
    `UPDATE outbox SET relayed_at = now()
      WHERE (studio_id, id) IN (SELECT * FROM unnest($1::uuid[], $2::uuid[]))`,
    [rows.map(({ studioId }) => studioId), rows.map(({ outboxId }) => outboxId)],
  );
}

/** Keep a row whose tries are used up, for a person to look at. */
export async function markGivenUp(
  tx: EntityManager,
  row: { studioId: string; outboxId: string; error: string },
): Promise<void> {
  await tx.query(
    `UPDATE outbox SET gave_up_at = now(), last_error = $3 WHERE studio_id = $1 AND id = $2 AND done_at IS NULL`,
    [row.studioId, row.outboxId, row.error],
  );
}
