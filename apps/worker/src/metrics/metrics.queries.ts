import type { SqlRunner } from '@studio/database';

export interface Backlog {
  job: string;
  /** Due and not done. */
  due: number;
  /** Seconds since the oldest of them was due. */
  oldest: number;
  failed: number;
}

/** Of all studios together. */
export function countBacklog(sql: SqlRunner): Promise<Backlog[]> {
  return sql.query(
    `WITH undone AS (
       SELECT job, coalesce(due_at, available_at) AS due, false AS failed FROM outbox
        WHERE relayed_at IS NULL AND done_at IS NULL AND gave_up_at IS NULL AND available_at <= app_now()
       UNION ALL
       SELECT job, coalesce(due_at, available_at), false FROM outbox
        WHERE relayed_at IS NOT NULL AND done_at IS NULL AND gave_up_at IS NULL
       UNION ALL
       SELECT job, NULL, true FROM outbox WHERE gave_up_at IS NOT NULL AND discarded_at IS NULL)
     SELECT job, count(*) FILTER (WHERE NOT failed)::integer AS due, count(*) FILTER (WHERE failed)::integer AS failed,
            coalesce(extract(epoch FROM app_now() - min(due)), 0)::float8 AS oldest
       FROM undone GROUP BY job`,
  );
}
