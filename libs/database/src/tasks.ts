import type { TaskKind } from './entities/task.js';
import type { Role } from './entities/user.js';
import type { SqlRunner } from './sql-runner.js';

interface About {
  readonly studioId: string;
  readonly kind: TaskKind;
  /** The record the task is about; `taskSubjects` says of which sort. */
  readonly subjectId: string;
}

/**
 * Put a task into the inbox of a role, in the caller's transaction. While one of the same kind about the same subject
 * is not done, nothing happens.
 *
 * @param dueAt now when absent
 */
export async function openTask(
  sql: SqlRunner,
  task: About & { readonly role: Role; readonly clientId?: string | null; readonly dueAt?: Date },
): Promise<void> {
  const { studioId, kind, role, clientId = null, subjectId, dueAt = null } = task;
  await sql.query(
    `WITH opened AS (
       INSERT INTO tasks (studio_id, kind, role, client_id, subject_id, due_at)
       VALUES ($1, $2, $3, $4, $5, coalesce($6, app_now()))
       ON CONFLICT (studio_id, kind, subject_id) WHERE state <> 'done' DO NOTHING
       RETURNING studio_id, id)
     INSERT INTO task_changes (studio_id, task_id, action, state) SELECT studio_id, id, 'open', 'open' FROM opened`,
    [studioId, kind, role, clientId, subjectId, dueAt],
  );
}

/** What the task was about has been seen to: it is done, by nobody in particular. */
export async function closeTask(sql: SqlRunner, { studioId, kind, subjectId }: About): Promise<void> {
  await sql.query(
    `WITH closed AS (
       UPDATE tasks SET state = 'done', done_at = app_now(), snoozed_until = NULL, version = version + 1
        WHERE studio_id = $1 AND kind = $2 AND subject_id = $3 AND state <> 'done'
        RETURNING studio_id, id, assigned_to)
     INSERT INTO task_changes (studio_id, task_id, action, state, assigned_to)
     SELECT studio_id, id, 'close', 'done', assigned_to FROM closed`,
    [studioId, kind, subjectId],
  );
}
