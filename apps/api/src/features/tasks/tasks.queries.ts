import {
  Task,
  TaskChange,
  type Role,
  type SqlRunner,
  type TaskKind,
  type TaskState,
  whenGiven,
  survivorOf,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { TaskChangeResponse } from './tasks.dto.js';

const utc = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** A snooze whose time has come is over. */
const stateNow = `CASE WHEN t.state = 'snoozed' AND t.snoozed_until <= app_now() THEN 'open' ELSE t.state END`;

const columns = `t.id, t.kind, t.role, t.subject_id AS "subjectId",
  CASE WHEN c.id IS NOT NULL THEN
    json_build_object('id', c.id, 'name', c.given_name || ' ' || c.family_name, 'phone', c.phone) END AS client,
  ${utc('t.due_at')} AS "dueAt", t.state <> 'done' AND t.due_at <= app_now() AS overdue, ${stateNow} AS state,
  CASE WHEN t.snoozed_until > app_now() THEN ${utc('t.snoozed_until')} END AS "snoozedUntil",
  t.assigned_to AS "assignedTo", ${utc('t.created_at')} AS "openedAt", ${utc('t.done_at')} AS "doneAt", t.version`;
const tables = `tasks t
  LEFT JOIN clients of ON of.studio_id = t.studio_id AND of.id = t.client_id
  LEFT JOIN clients c ON c.studio_id = t.studio_id AND c.id = ${survivorOf('of')}`;

export interface TaskRecord {
  readonly id: string;
  readonly kind: TaskKind;
  readonly role: Role;
  readonly subjectId: string;
  readonly client: { readonly id: string; readonly name: string; readonly phone: string | null } | null;
  readonly dueAt: string;
  readonly overdue: boolean;
  readonly state: TaskState;
  readonly snoozedUntil: string | null;
  readonly assignedTo: string | null;
  readonly openedAt: string;
  readonly doneAt: string | null;
  readonly version: number;
}

interface Key {
  readonly studioId: string;
  readonly id: string;
}

/** One of the inboxes of these roles. */
export async function findTask(
  sql: SqlRunner,
  key: Key & { roles: readonly Role[] },
): Promise<TaskRecord | null> {
  const rows = await sql.query<TaskRecord[]>(
    `SELECT ${columns} FROM ${tables} WHERE t.studio_id = $1 AND t.id = $2 AND t.role = ANY ($3)`,
    [key.studioId, key.id, key.roles],
  );
  return rows[0] ?? null;
}

/** By when it is due, and by id where two are due at once; the page goes on after the task `after`. */
export function listTasks(
  sql: SqlRunner,
  page: {
    studioId: string;
    roles: readonly Role[];
    state: TaskState;
    kind: TaskKind | null;
    dueBefore: string | null;
    assignedTo: string | null;
    clientId: string | null;
    after: string | null;
    limit: number;
  },
): Promise<TaskRecord[]> {
  return sql.query<TaskRecord[]>(
    `SELECT ${columns} FROM ${tables}
      WHERE t.studio_id = $1 AND t.role = ANY ($2) AND ${stateNow} = $3
        AND ${whenGiven(page.kind, '$4::text', 't.kind = $4')}
        AND ${whenGiven(page.dueBefore, '$5::timestamptz', 't.due_at < $5')}
        AND ${whenGiven(page.assignedTo, '$6::uuid', 't.assigned_to = $6')}
        AND ${whenGiven(page.clientId, '$7::uuid', 't.client_id IN (SELECT * FROM app_same_client($1, $7))')}
        AND ${whenGiven(page.after, '$8::uuid', '(t.due_at, t.id) > (SELECT due_at, id FROM tasks WHERE studio_id = $1 AND id = $8)')}
      ORDER BY t.due_at, t.id
      LIMIT $9`,
    [
      ...[page.studioId, page.roles, page.state, page.kind, page.dueBefore, page.assignedTo, page.clientId],
      ...[page.after, page.limit],
    ],
  );
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateTask(
  tx: EntityManager,
  key: Key & { version: number },
  fields: Partial<Pick<Task, 'state' | 'snoozedUntil' | 'assignedTo'>>,
): Promise<boolean> {
  const { affected } = await tx.update(Task, key, {
    ...fields,
    ...(fields.state !== undefined && { doneAt: fields.state === 'done' ? () => 'app_now()' : null }),
    version: key.version + 1,
  });
  return affected === 1;
}

export async function insertTaskChange(
  tx: EntityManager,
  key: Key,
  change: { action: string; changedBy: string | null },
): Promise<void> {
  const { studioId, state, snoozedUntil, assignedTo } = await tx.findOneByOrFail(Task, key);
  await tx.insert(TaskChange, {
    ...{ studioId, state, snoozedUntil, assignedTo },
    taskId: key.id,
    ...change,
  });
}

export function listTaskChanges(sql: SqlRunner, key: Key): Promise<TaskChangeResponse[]> {
  return sql.query<TaskChangeResponse[]>(
    `SELECT id, action, state, ${utc('snoozed_until')} AS "snoozedUntil", assigned_to AS "assignedTo",
            changed_by AS "changedBy", ${utc('created_at')} AS "changedAt"
       FROM task_changes WHERE studio_id = $1 AND task_id = $2 ORDER BY id`,
    [key.studioId, key.id],
  );
}

/** Whether the person may sign in and has the role's inbox; an owner has all. */
export async function seesInbox(
  sql: SqlRunner,
  who: { studioId: string; userId: string; role: Role },
): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM users
      WHERE studio_id = $1 AND id = $2 AND disabled_at IS NULL AND roles && ARRAY[$3, 'owner']`,
    [who.studioId, who.userId, who.role],
  );
  return rows.length === 1;
}
