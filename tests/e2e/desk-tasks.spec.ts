import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, type components } from '@studio/api-client';
import { createDataSource, openTask, type TaskKind } from '@studio/database';
import { randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

type TaskResponse = components['schemas']['TaskResponse'];

let api: TestApi;
let studio: TestStudio;
let admin: DataSource;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  const pool = { url: api.database.adminUrl, poolSize: 1, applicationName: 'test' };
  admin = await createDataSource(pool).initialize();
});
afterAll(async () => {
  await admin.destroy();
  await api.close();
});

/** As a job would: what comes with time and with mail opens tasks, not the desk. */
async function opened(
  task: { kind?: TaskKind; role?: 'front_desk' | 'fitter'; clientId?: string; dueAt?: Date } = {},
): Promise<TaskResponse> {
  const { kind = 'mail_bounced', role = 'front_desk', ...rest } = task;
  const subjectId = randomUUID();
  await openTask(admin.manager, { studioId: studio.studio.studioId, kind, role, subjectId, ...rest });
  const { items } = await dataOf(studio.owner.GET('/v1/tasks', { params: { query: { kind, limit: 200 } } }));
  return items.find((item) => item.subjectId === subjectId) as TaskResponse;
}
const on = ({ id, version }: TaskResponse) => ({
  params: { path: { taskId: id }, header: { 'If-Match': `"${version}"` } },
});
const finish = (task: TaskResponse) => studio.desk.POST('/v1/tasks/{taskId}/completion', on(task));
const reopen = (task: TaskResponse) => studio.desk.POST('/v1/tasks/{taskId}/reopening', on(task));
const snooze = (task: TaskResponse, until: string) =>
  studio.desk.POST('/v1/tasks/{taskId}/snooze', { ...on(task), body: { until } });
const assign = (task: TaskResponse, userId: string | null) =>
  studio.owner.POST('/v1/tasks/{taskId}/assignment', { ...on(task), body: { userId } });
const clock = async (seconds = 1): Promise<number> =>
  Date.parse((await dataOf(studio.owner.POST('/v1/test-clock/advance', { body: { seconds } }))).now);
const list = async (query: object): Promise<TaskResponse[]> =>
  (await dataOf(studio.desk.GET('/v1/tasks', { params: { query } }))).items;

describe('the inbox', () => {
  it('shows each role its own, and the owner all', async () => {
    const desk = await opened();
    const fitter = await opened({ kind: 'referral_overdue', role: 'fitter' });
    const seen = (await list({ limit: 200 })).map(({ id }) => id);
    expect(seen).toContain(desk.id);
    expect(seen).not.toContain(fitter.id);
    const of = { params: { path: { taskId: fitter.id } } };
    expect((await studio.desk.GET('/v1/tasks/{taskId}', of)).response.status).toBe(404);
    expect((await studio.desk.GET('/v1/tasks/{taskId}/history', of)).response.status).toBe(404);
    expect((await finish(fitter)).response.status).toBe(404);
    expect((await studio.owner.GET('/v1/tasks/{taskId}', of)).response.status).toBe(200);
  });

  it('says whom to call, and what it is about', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const task = await opened({ clientId });
    expect(task).toMatchObject({
      subjectType: 'message',
      client: { id: clientId, name: 'Robin Rider', phone: null },
      state: 'open',
      overdue: true,
      allowed: ['finish', 'snooze', 'assign'],
    });
  });

  it('runs by when it is due, page after page, though more comes in meanwhile', async () => {
    const { clientId } = await takeOnClient(studio.owner);
    const at = (minutes: number) => new Date(Date.UTC(2026, 0, 1, 0, minutes));
    const known = [];
    for (const minutes of [3, 1, 2, 2, 5]) {
      const { id } = await opened({ clientId, kind: 'shoe_work_to_collect', dueAt: at(minutes) });
      known.push({ id, minutes });
    }
    const query = { clientId, limit: 2 };
    const first = await dataOf(studio.desk.GET('/v1/tasks', { params: { query } }));
    await opened({ clientId, kind: 'shoe_work_to_collect', dueAt: at(0) });
    const seen = [...first.items];
    for (let after = first.next; after !== null;) {
      const page = await dataOf(studio.desk.GET('/v1/tasks', { params: { query: { ...query, after } } }));
      seen.push(...page.items);
      after = page.next;
    }
    const inOrder = known.sort((a, b) => a.minutes - b.minutes || (a.id < b.id ? -1 : 1));
    expect(seen.map(({ id }) => id)).toEqual(inOrder.map(({ id }) => id));
    expect(await list({ clientId, dueBefore: at(2).toISOString() })).toHaveLength(2);
  });
});

describe('a task', () => {
  it('that is done leaves the inbox, and comes back when that was a mistake', async () => {
    const task = await opened();
    const done = await dataOf(finish(task));
    expect(done).toMatchObject({ state: 'done', overdue: false, allowed: ['reopen'], version: 2 });
    expect(done.doneAt).not.toBeNull();
    expect((await list({ limit: 200 })).map(({ id }) => id)).not.toContain(task.id);
    expect((await list({ state: 'done' })).map(({ id }) => id)).toContain(task.id);
    expect((await finish(done)).error).toMatchObject({
      status: 409,
      code: 'tasks.not-possible',
      state: 'done',
      allowed: ['reopen'],
    });
    expect(await dataOf(reopen(done))).toMatchObject({ state: 'open', doneAt: null });
  });

  it('that is snoozed comes back by itself', async () => {
    const task = await opened();
    const until = new Date((await clock()) + 3_600_000).toISOString();
    const snoozed = await dataOf(snooze(task, until));
    expect(snoozed).toMatchObject({ state: 'snoozed', snoozedUntil: until });
    const inbox = async () => (await list({ limit: 200 })).map(({ id }) => id);
    expect(await inbox()).not.toContain(task.id);
    expect((await list({ state: 'snoozed' })).map(({ id }) => id)).toEqual([task.id]);
    await clock(3_601);
    expect(await inbox()).toContain(task.id);
    expect(await list({ state: 'snoozed' })).toEqual([]);
    expect(await dataOf(finish(snoozed))).toMatchObject({ state: 'done', snoozedUntil: null });
  });

  it('cannot be snoozed into the past, nor for more than a year', async () => {
    const task = await opened();
    const now = await clock();
    for (const at of [now - 1000, now + 400 * 86_400_000]) {
      const { error } = await snooze(task, new Date(at).toISOString());
      expect(error).toMatchObject({ status: 400, errors: [{ field: 'until' }] });
    }
  });

  it('goes to a person whose inbox it is in, and to no other', async () => {
    const fitterTask = await opened({ kind: 'clearance_run_out', role: 'fitter' });
    const { items: staff } = await dataOf(studio.owner.GET('/v1/staff'));
    const desk = staff.find(({ roles }) => roles.includes('front_desk'));
    const refused = await assign(fitterTask, desk?.id ?? '');
    expect(refused.error).toMatchObject({ status: 422, code: 'tasks.assignee-cannot-see' });
    const owner = studio.owner.signedIn.id;
    const given = await dataOf(assign(fitterTask, owner));
    expect(given.assignedTo).toBe(owner);
    const query = { assignedTo: owner };
    const { items } = await dataOf(studio.owner.GET('/v1/tasks', { params: { query } }));
    expect(items.map(({ id }) => id)).toEqual([fitterTask.id]);
    expect((await dataOf(assign(given, null))).assignedTo).toBeNull();
  });

  it('keeps who did what; who comes second is told', async () => {
    const task = await opened();
    const until = new Date((await clock()) + 60_000).toISOString();
    const answers = await Promise.all([snooze(task, until), snooze(task, until)]);
    expect(answers.map(({ response }) => response.status).sort()).toEqual([200, 412]);
    const history = await dataOf(
      studio.desk.GET('/v1/tasks/{taskId}/history', { params: { path: { taskId: task.id } } }),
    );
    expect(history).toMatchObject([
      { action: 'open', state: 'open', changedBy: null },
      { action: 'snooze', state: 'snoozed', snoozedUntil: until },
    ]);
    expect(history[1]?.changedBy).not.toBeNull();
  });

  it('about the same is not open twice', async () => {
    const task = await opened();
    const done = await dataOf(finish(task));
    const { kind, role, subjectId } = task;
    await openTask(admin.manager, { studioId: studio.studio.studioId, kind, role, subjectId });
    expect((await reopen(done)).error).toMatchObject({ status: 409, code: 'tasks.open-already' });
  });
});
