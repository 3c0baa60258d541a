import { Injectable } from '@nestjs/common';
import { readClock, recordAudit, TenantTransaction, violates, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { pageOf, pageSize } from '../../http/paging.js';
import { found, InvalidRequest, StaleVersion } from '../../http/problem.js';
import { inboxesOf } from './inboxes.js';
import { taskActions, taskActionsIn, type TaskAction } from './task-actions.js';
import { toResponse } from './task-response.js';
import type {
  AssignTaskRequest,
  ListTasksQuery,
  SnoozeTaskRequest,
  TaskChangeResponse,
  TaskPage,
  TaskResponse,
} from './tasks.dto.js';
import { AssigneeCannotSee, TaskActionImpossible, TaskOpenAlready } from './tasks.errors.js';
import * as queries from './tasks.queries.js';

const yearMs = 366 * 86_400_000;

@Injectable()
export class TasksService {
  constructor(private readonly transaction: TenantTransaction) {}

  /** Ids and dates only, so nothing is written to the audit log. */
  async list(ctx: TenantContext, query: ListTasksQuery): Promise<TaskPage> {
    const limit = pageSize(query);
    const { state = 'open', kind = null, dueBefore = null, assignedTo = null, clientId = null } = query;
    const rows = await this.transaction.read(ctx, (sql) =>
      queries.listTasks(sql, {
        studioId: ctx.studioId,
        roles: inboxesOf(ctx).filter((role) => query.role === undefined || role === query.role),
        ...{ state, kind, dueBefore, assignedTo, clientId },
        ...{ after: query.after ?? null, limit: limit + 1 },
      }),
    );
    return pageOf(rows.map(toResponse), limit);
  }

  async get(ctx: TenantContext, id: string): Promise<TaskResponse> {
    return toResponse(await this.transaction.read(ctx, (sql) => find(sql, ctx, id)));
  }

  async history(ctx: TenantContext, id: string): Promise<TaskChangeResponse[]> {
    return this.transaction.read(ctx, async (sql) => {
      await find(sql, ctx, id);
      return queries.listTaskChanges(sql, { studioId: ctx.studioId, id });
    });
  }

  async finish(ctx: TenantContext, id: string, version: number): Promise<TaskResponse> {
    return this.act(ctx, { id, version, action: 'finish' }, () => ({ snoozedUntil: null }));
  }

  async snooze(
    ctx: TenantContext,
    id: string,
    version: number,
    { until }: SnoozeTaskRequest,
  ): Promise<TaskResponse> {
    return this.act(ctx, { id, version, action: 'snooze' }, async (tx) => {
      const now = (await readClock(tx)).getTime();
      const snoozedUntil = new Date(until);
      if (snoozedUntil.getTime() <= now || snoozedUntil.getTime() > now + yearMs) {
        throw new InvalidRequest([{ field: 'until', message: 'must lie ahead, within a year' }]);
      }
      return { snoozedUntil };
    });
  }

  async assign(
    ctx: TenantContext,
    id: string,
    version: number,
    { userId }: AssignTaskRequest,
  ): Promise<TaskResponse> {
    const { studioId } = ctx;
    return this.act(ctx, { id, version, action: 'assign' }, async (tx, { role }) => {
      if (userId !== null && !(await queries.seesInbox(tx, { studioId, userId, role }))) {
        throw new AssigneeCannotSee();
      }
      return { assignedTo: userId };
    });
  }

  async reopen(ctx: TenantContext, id: string, version: number): Promise<TaskResponse> {
    try {
      return await this.act(ctx, { id, version, action: 'reopen' }, () => ({ snoozedUntil: null }));
    } catch (error) {
      if (violates(error, 'tasks_one_open')) throw new TaskOpenAlready();
      throw error;
    }
  }

  private async act(
    ctx: TenantContext,
    { id, version, action }: { id: string; version: number; action: TaskAction },
    fieldsOf: (tx: EntityManager, task: queries.TaskRecord) => Fields | Promise<Fields>,
  ): Promise<TaskResponse> {
    const { studioId, userId } = ctx;
    return this.transaction.run(ctx, async (tx) => {
      const task = await find(tx, ctx, id);
      if (!taskActionsIn(task.state).includes(action)) throw new TaskActionImpossible(task.state);
      const { to } = taskActions[action];
      const fields = { ...(await fieldsOf(tx, task)), ...(to !== null && { state: to }) };
      if (!(await queries.updateTask(tx, { studioId, id, version }, fields))) throw new StaleVersion();
      await queries.insertTaskChange(tx, { studioId, id }, { action, changedBy: userId });
      await recordAudit(tx, ctx, { action: `tasks.${action}`, recordId: id });
      return toResponse(await find(tx, ctx, id));
    });
  }
}

type Fields = Parameters<typeof queries.updateTask>[2];

async function find(
  sql: Parameters<typeof queries.findTask>[0],
  ctx: TenantContext,
  id: string,
): Promise<queries.TaskRecord> {
  return found(await queries.findTask(sql, { studioId: ctx.studioId, id, roles: inboxesOf(ctx) }));
}
