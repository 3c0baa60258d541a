import type { SqlRunner } from '@studio/database';
import { jobs, rulesOf, type JobName } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';

export interface JobCounts {
  job: JobName;
  scheduled: number;
  waiting: number;
  handedOver: number;
  retrying: number;
  late: number;
  failed: number;
  oldestDueAt: Date | null;
}

const jobNames = Object.keys(jobs) as JobName[];

/** Asked once, not for every order. */
const now = '(SELECT app_now())';

/** The studio's undone orders by job. The three parts are those of the outbox's partial indexes. */
export function countByJob(sql: SqlRunner, studioId: string): Promise<JobCounts[]> {
  return sql.query(
    `WITH undone AS (
       SELECT job, available_at, due_at, attempts, false AS flying, false AS failed FROM outbox
        WHERE studio_id = $1 AND relayed_at IS NULL AND done_at IS NULL AND gave_up_at IS NULL
       UNION ALL
       SELECT job, available_at, due_at, attempts, true, false FROM outbox
        WHERE studio_id = $1 AND relayed_at IS NOT NULL AND done_at IS NULL AND gave_up_at IS NULL
       UNION ALL
       SELECT job, available_at, due_at, attempts, false, true FROM outbox
        WHERE studio_id = $1 AND gave_up_at IS NOT NULL AND discarded_at IS NULL),
     told AS (
       SELECT job, flying, failed, coalesce(due_at, available_at) AS due,
              NOT failed AND available_at <= ${now} AS waiting,
              NOT failed AND available_at > ${now} AND due_at IS NOT NULL AS retrying,
              NOT failed AND available_at > ${now} AND due_at IS NULL AS scheduled
         FROM undone)
     SELECT job,
            count(*) FILTER (WHERE scheduled)::integer AS scheduled,
            count(*) FILTER (WHERE waiting)::integer AS waiting,
            count(*) FILTER (WHERE waiting AND flying)::integer AS "handedOver",
            count(*) FILTER (WHERE retrying)::integer AS retrying,
            count(*) FILTER (WHERE (waiting OR retrying)
              AND due < ${now} - make_interval(secs => rule.late_after))::integer AS late,
            count(*) FILTER (WHERE failed)::integer AS failed,
            min(due) FILTER (WHERE waiting OR retrying) AS "oldestDueAt"
       FROM told JOIN unnest($2::text[], $3::integer[]) AS rule (job, late_after) USING (job)
      GROUP BY job`,
    [studioId, jobNames, jobNames.map((job) => rulesOf(job).lateAfterSeconds)],
  );
}

/** Real time, not the test clock's: workers live in it. */
export async function findWorkers(
  sql: SqlRunner,
  heardOfWithinSeconds: number,
): Promise<{ alive: number; lastHeardOfAt: Date | null }> {
  const [row] = await sql.query<[{ alive: number; lastHeardOfAt: Date | null }]>(
    `SELECT count(*) FILTER (WHERE beat_at > now() - make_interval(secs => $1))::integer AS alive,
            max(beat_at) AS "lastHeardOfAt" FROM worker_heartbeats`,
    [heardOfWithinSeconds],
  );
  return row;
}

export interface FailedOrder {
  id: string;
  job: string;
  about: object;
  dueAt: Date;
  gaveUpAt: Date;
  attempts: number;
  lastError: string | null;
}

const failedColumns = `id, job, payload AS about, coalesce(due_at, available_at) AS "dueAt", gave_up_at AS "gaveUpAt",
                       attempts, last_error AS "lastError"`;

export function listFailed(
  sql: SqlRunner,
  of: { studioId: string; after: string | null; limit: number },
): Promise<FailedOrder[]> {
  return sql.query(
    `SELECT ${failedColumns} FROM outbox
      WHERE studio_id = $1 AND gave_up_at IS NOT NULL AND discarded_at IS NULL AND ($2::uuid IS NULL OR id > $2)
      ORDER BY id LIMIT $3`,
    [of.studioId, of.after, of.limit],
  );
}

interface Key {
  studioId: string;
  id: string;
}

export type OrderState = 'open' | 'done' | 'failed' | 'discarded';

export async function findOrderStateForUpdate(tx: EntityManager, key: Key): Promise<OrderState | null> {
  const rows = await tx.query<{ state: OrderState }[]>(
    `SELECT CASE WHEN done_at IS NOT NULL THEN 'done' WHEN discarded_at IS NOT NULL THEN 'discarded'
                 WHEN gave_up_at IS NOT NULL THEN 'failed' ELSE 'open' END AS state
       FROM outbox WHERE studio_id = $1 AND id = $2 FOR UPDATE`,
    [key.studioId, key.id],
  );
  return rows[0]?.state ?? null;
}

/** As if it were ordered now; when it was due stays known. */
export async function orderAgain(tx: EntityManager, key: Key): Promise<void> {
  await tx.query(
    `UPDATE outbox SET gave_up_at = NULL, discarded_at = NULL, relayed_at = NULL, attempts = 0,
            due_at = coalesce(due_at, available_at), available_at = app_now()
      WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
}

export async function markDiscarded(tx: EntityManager, key: Key): Promise<void> {
  await tx.query('UPDATE outbox SET discarded_at = app_now() WHERE studio_id = $1 AND id = $2', [
    key.studioId,
    key.id,
  ]);
}
