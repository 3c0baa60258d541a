import { rulesOf, jobs, type JobName } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';

export interface DueRow {
  studioId: string;
  outboxId: string;
  job: JobName;
  payload: object;
  /** Tries that failed so far. */
  attempts: number;
  /** The trace it is part of (W3C Trace Context), where traces are made. */
  traceparent: string | null;
}

const open = 'done_at IS NULL AND gave_up_at IS NULL';
const jobNames = Object.keys(jobs) as JobName[];

/**
 * Rows whose time has come, of every studio, locked for this relay; other relays pass over them. Of one studio and one
 * job only so many that its share in flight is not exceeded (by each relay, when several run at once).
 */
export function claimDue(tx: EntityManager, limit: number): Promise<DueRow[]> {
  return tx.query<DueRow[]>(
    `WITH lane AS MATERIALIZED (
       SELECT DISTINCT studio_id, job FROM outbox
        WHERE relayed_at IS NULL AND ${open} AND available_at <= app_now())
     SELECT due.* FROM lane
       JOIN unnest($1::text[], $2::integer[]) AS rule (job, share) USING (job)
      CROSS JOIN LATERAL (
        SELECT count(*) AS n FROM outbox
         WHERE studio_id = lane.studio_id AND job = lane.job AND relayed_at IS NOT NULL AND ${open}) in_flight
      CROSS JOIN LATERAL (
        SELECT studio_id AS "studioId", id AS "outboxId", o.job, payload, attempts, traceparent
          FROM outbox o
         WHERE studio_id = lane.studio_id AND o.job = lane.job
           AND relayed_at IS NULL AND ${open} AND available_at <= app_now()
         ORDER BY available_at LIMIT greatest(rule.share - in_flight.n, 0)
         FOR UPDATE SKIP LOCKED) due
      LIMIT $3`,
    [jobNames, jobNames.map((job) => rulesOf(job).share), limit],
  );
}

export async function markRelayed(tx: EntityManager, rows: readonly DueRow[]): Promise<void> {
  await tx.query(
    `UPDATE outbox SET relayed_at = now()
      WHERE (studio_id, id) IN (SELECT * FROM unnest($1::uuid[], $2::uuid[]))`,
    [rows.map(({ studioId }) => studioId), rows.map(({ outboxId }) => outboxId)],
  );
}

/**
 * Rows handed over so long ago are waiting again: Redis may have lost them, and if not, the queue knows their id.
 */
export async function takeBack(tx: EntityManager, afterSeconds: number): Promise<void> {
  await tx.query(
    `UPDATE outbox SET relayed_at = NULL
      WHERE (studio_id, id) IN (
        SELECT studio_id, id FROM outbox
         WHERE ${open} AND relayed_at < now() - make_interval(secs => $1)
         FOR UPDATE SKIP LOCKED)`,
    [afterSeconds],
  );
}

interface Key {
  studioId: string;
  outboxId: string;
}

/** A failed try: the row waits for the next in PostgreSQL, where no restart forgets how many there were. */
export async function putOff(
  tx: EntityManager,
  { studioId, outboxId }: Key,
  { waitMs, error }: { waitMs: number; error: string },
): Promise<void> {
  await tx.query(
    `UPDATE outbox SET attempts = attempts + 1, due_at = coalesce(due_at, available_at),
            available_at = app_now() + make_interval(secs => $3), relayed_at = NULL, last_error = $4
      WHERE studio_id = $1 AND id = $2 AND ${open}`,
    [studioId, outboxId, waitMs / 1000, error],
  );
}

/** Too early: it comes again after so long. */
export async function comeAgain(
  tx: EntityManager,
  { studioId, outboxId }: Key,
  waitMs: number,
): Promise<void> {
  await tx.query(
    `UPDATE outbox SET due_at = coalesce(due_at, available_at), relayed_at = NULL,
            available_at = app_now() + make_interval(secs => $3)
      WHERE studio_id = $1 AND id = $2 AND ${open}`,
    [studioId, outboxId, waitMs / 1000],
  );
}

/** Begun and not finished through no fault of its own: any relay may hand it over at once. */
export async function handBack(tx: EntityManager, { studioId, outboxId }: Key): Promise<void> {
  await tx.query(`UPDATE outbox SET relayed_at = NULL WHERE studio_id = $1 AND id = $2 AND ${open}`, [
    studioId,
    outboxId,
  ]);
}

/** Keep a row whose tries are used up, for a person to look at; tells whether it was open until now. */
export async function markGivenUp(
  tx: EntityManager,
  { studioId, outboxId }: Key,
  error: string,
): Promise<boolean> {
  const [, count] = await tx.query<[unknown, number]>(
    `UPDATE outbox SET attempts = attempts + 1, gave_up_at = app_now(), last_error = $3
      WHERE studio_id = $1 AND id = $2 AND ${open}`,
    [studioId, outboxId, error],
  );
  return count === 1;
}
