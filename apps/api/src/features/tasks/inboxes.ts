import { roles, type Role, type SqlRunner, type TenantContext } from '@studio/database';
import type { TaskResponse } from './tasks.dto.js';
import { listTasks } from './tasks.queries.js';
import { toResponse } from './task-response.js';

/** Everybody has the inboxes of their roles; an owner has all. */
export const inboxesOf = ({ roles: own }: TenantContext): readonly Role[] =>
  own.includes('owner') ? roles : own;

/** What is open in the person's inboxes and due before an instant, most pressing first. */
export async function openTasksBefore(
  sql: SqlRunner,
  ctx: TenantContext,
  { dueBefore, limit }: { dueBefore: string; limit: number },
): Promise<TaskResponse[]> {
  const rows = await listTasks(sql, {
    ...{ studioId: ctx.studioId, roles: inboxesOf(ctx), state: 'open', dueBefore, limit },
    ...{ kind: null, assignedTo: null, clientId: null, after: null },
  });
  return rows.map(toResponse);
}
