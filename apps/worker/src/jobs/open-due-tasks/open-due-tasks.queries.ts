import { takenWithin, type Role, type SqlRunner, type TaskKind } from '@studio/database';

export interface DueTask {
  readonly kind: TaskKind;
  readonly role: Role;
  readonly clientId: string;
  readonly subjectId: string;
  readonly dueAt: Date;
}

/** House rule: early enough to reach the client by phone. */
const intakeDaysBefore = 2;

/**
 * What each kind of task is about, and since when it is due:
 * a visit booked within the next days whose client has not been screened, nor handed an intake in;
 * a referral case nobody has answered though its deadline has passed;
 * a clearance that ran out, unless another one that stands speaks of all it spoke of;
 * shoes that were worked on, of which nothing cures any more.
 */
const reasons = `
  SELECT 'intake_missing' AS kind, 'front_desk' AS role, a.client_id, a.id AS subject_id,
         lower(a.during) - make_interval(days => ${intakeDaysBefore}) AS due_at
    FROM appointments a
   WHERE a.studio_id = $1 AND ${takenWithin('app_now()', null, 'a.')} AND a.state = 'booked' AND lower(a.during) > app_now()
     AND NOT EXISTS (SELECT 1 FROM screenings s WHERE s.studio_id = a.studio_id
                        AND s.client_id IN (SELECT * FROM app_same_client(a.studio_id, a.client_id)))
  UNION ALL
  SELECT 'referral_overdue', 'fitter', r.client_id, r.id, r.due_at
    FROM referrals r
   WHERE r.studio_id = $1 AND r.state IN ('opened', 'handed_over', 'acknowledged')
  UNION ALL
  SELECT 'clearance_run_out', 'fitter', c.client_id, c.id, c.valid_until
    FROM clearances c
   WHERE c.studio_id = $1 AND c.valid_until IS NOT NULL
     AND EXISTS (
       SELECT 1 FROM cleared_findings k
        WHERE k.studio_id = c.studio_id AND k.clearance_id = c.id
          AND NOT EXISTS (
            SELECT 1 FROM cleared_findings o JOIN clearances n ON n.studio_id = o.studio_id AND n.id = o.clearance_id
             WHERE o.studio_id = k.studio_id AND o.finding_id = k.finding_id AND n.scope @> c.scope
               AND (n.valid_until IS NULL OR n.valid_until > app_now())))
  UNION ALL
  SELECT 'shoe_work_to_collect', 'front_desk', w.client_id, w.id, w.to_collect_at
    FROM shoe_works w
   WHERE w.studio_id = $1 AND w.state IN ('curing', 'to_collect')`;

/** What is due and has not been a task yet with that time. */
export function listDue(sql: SqlRunner, studioId: string): Promise<DueTask[]> {
  return sql.query<DueTask[]>(
    `SELECT r.kind, r.role, r.client_id AS "clientId", r.subject_id AS "subjectId", r.due_at AS "dueAt"
       FROM (${reasons}) AS r
      WHERE r.due_at <= app_now()
        AND NOT EXISTS (
          SELECT 1 FROM tasks t
           WHERE t.studio_id = $1 AND t.kind = r.kind AND t.subject_id = r.subject_id AND t.due_at = r.due_at)
      ORDER BY r.due_at, r.subject_id`,
    [studioId],
  );
}

/** Tasks not done whose reason holds no longer, or holds for another time. */
export function listGone(sql: SqlRunner, studioId: string): Promise<{ kind: TaskKind; subjectId: string }[]> {
  return sql.query(
    `WITH r AS (${reasons})
     SELECT t.kind, t.subject_id AS "subjectId" FROM tasks t
      WHERE t.studio_id = $1 AND t.state <> 'done'
        AND t.kind IN ('intake_missing', 'referral_overdue', 'clearance_run_out', 'shoe_work_to_collect')
        AND NOT EXISTS (SELECT 1 FROM r WHERE r.kind = t.kind AND r.subject_id = t.subject_id
                           AND (r.due_at = t.due_at OR t.kind = 'referral_overdue'))`,
    [studioId],
  );
}
