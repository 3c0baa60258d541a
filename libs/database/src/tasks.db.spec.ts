import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { createTestDatabase, type TestDatabase } from '../../../tests/helpers/database.js';
import { createDataSource } from './data-source.js';
import { StudioKeys } from './studio-keys.js';
import { closeTask, openTask } from './tasks.js';
import { TenantReads } from './tenant-reads.js';
import { TenantTransaction } from './tenant-transaction.js';

let database: TestDatabase;
let dataSource: DataSource;
let reads: TenantReads;
let transaction: TenantTransaction;
const studioId = randomUUID();

beforeAll(async () => {
  database = await createTestDatabase();
  const admin = await createDataSource({
    url: database.adminUrl,
    poolSize: 1,
    applicationName: 'test',
  }).initialize();
  await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'S', 'Europe/Copenhagen')`, [
    studioId,
  ]);
  await admin.destroy();
  const pool = { url: database.workerUrl, poolSize: 4, applicationName: 'test' };
  dataSource = await createDataSource(pool).initialize();
  reads = new TenantReads(pool);
  transaction = new TenantTransaction(
    dataSource,
    reads,
    new StudioKeys([{ id: 'test', key: Buffer.alloc(32) }]),
  );
});
afterAll(async () => {
  await reads.close();
  await dataSource.destroy();
  await database.drop();
});

const kind = 'mail_bounced';
const open = (subjectId: string, dueAt?: Date): Promise<void> =>
  transaction.run({ studioId }, (tx) =>
    openTask(tx, { studioId, kind, role: 'front_desk', subjectId, ...(dueAt && { dueAt }) }),
  );
const close = (subjectId: string): Promise<void> =>
  transaction.run({ studioId }, (tx) => closeTask(tx, { studioId, kind, subjectId }));
const tasksAbout = (subjectId: string): Promise<{ state: string; actions: string[] }[]> =>
  transaction.read({ studioId }, (sql) =>
    sql.query(
      `SELECT state, ARRAY(SELECT action FROM task_changes c WHERE c.studio_id = t.studio_id AND c.task_id = t.id
                            ORDER BY c.id) AS actions
         FROM tasks t WHERE studio_id = $1 AND subject_id = $2 ORDER BY id`,
      [studioId, subjectId],
    ),
  );

describe('a task', () => {
  it('is opened once however many ask at the same time', async () => {
    const subjectId = randomUUID();
    await Promise.all([1, 2, 3, 4].map(() => open(subjectId)));
    expect(await tasksAbout(subjectId)).toEqual([{ state: 'open', actions: ['open'] }]);
  });

  it('is closed once, and opened anew after that', async () => {
    const subjectId = randomUUID();
    await open(subjectId);
    await close(subjectId);
    await close(subjectId);
    await open(subjectId);
    expect(await tasksAbout(subjectId)).toEqual([
      { state: 'done', actions: ['open', 'close'] },
      { state: 'open', actions: ['open'] },
    ]);
  });

  it('that nobody opened is not closed', async () => {
    const subjectId = randomUUID();
    await close(subjectId);
    expect(await tasksAbout(subjectId)).toEqual([]);
  });
});
