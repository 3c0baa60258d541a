import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import type { DataSource } from 'typeorm';
import { createTestDatabase, type TestDatabase } from '../../../tests/helpers/database.js';
import { createDataSource } from './data-source.js';
import type { SqlRunner } from './sql-runner.js';
import { StudioKeys } from './studio-keys.js';
import { TenantReads } from './tenant-reads.js';
import { TenantTransaction } from './tenant-transaction.js';
import { together } from './together.js';

let database: TestDatabase;
let dataSource: DataSource;
let reads: TenantReads;
let transaction: TenantTransaction;
const studioId = randomUUID();

beforeAll(async () => {
  database = await createTestDatabase();
  const admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'S', 'Europe/Copenhagen')`, [
    studioId,
  ]);
  await admin.end();
  const pool = { url: database.apiUrl, poolSize: 1, applicationName: 'test' };
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

const add = async (sql: SqlRunner, familyName: string | null): Promise<string> => {
  const rows = await sql.query<{ id: string }[]>(
    `INSERT INTO clients (studio_id, given_name, family_name) VALUES ($1, 'Robin', $2) RETURNING family_name AS id`,
    [studioId, familyName],
  );
  return (rows[0] as { id: string }).id;
};
const count = (sql: SqlRunner): Promise<[{ count: number }]> =>
  sql.query('SELECT count(*)::int AS count FROM clients WHERE studio_id = $1', [studioId]);

describe('statements sent together', () => {
  it('run in their order, each with its own answer, the first time and again', async () => {
    for (const before of [0, 2]) {
      await transaction.run({ studioId }, async (tx) => {
        const [one, between, two, after] = await together([
          add(tx, 'One'),
          count(tx),
          add(tx, 'Two'),
          count(tx),
        ]);
        expect([one, between[0].count, two, after[0].count]).toEqual(['One', before + 1, 'Two', before + 2]);
      });
    }
  });

  it('tell what failed, not what failed after it, and leave nothing of it', async () => {
    const [{ count: before }] = await transaction.read({ studioId }, count);
    const failing = transaction.run({ studioId }, (tx) =>
      together([add(tx, 'Three').then(() => add(tx, 'Four')), add(tx, null), count(tx)]),
    );
    await expect(failing).rejects.toMatchObject({ driverError: { code: '23502' } });
    expect(await transaction.read({ studioId }, count)).toEqual([{ count: before }]);
  });

  it('can be sent again on a connection on which they failed', async () => {
    const read = (sql: SqlRunner): Promise<unknown[]> => sql.query('SELECT $1::text AS said', ['again']);
    const failing = transaction.run({ studioId }, (tx) => together([add(tx, null), read(tx)]));
    await expect(failing).rejects.toThrow();
    expect(await transaction.run({ studioId }, read)).toEqual([{ said: 'again' }]);
  });

  it('see the studio of their transaction, and nobody sees it after it', async () => {
    const seen = (sql: SqlRunner): Promise<unknown[]> =>
      sql.query(`SELECT current_setting('app.studio_id', true) AS studio WHERE $1`, [true]);
    expect(await transaction.run({ studioId }, seen)).toEqual([{ studio: studioId }]);
    expect(await dataSource.manager.transaction(seen)).toEqual([{ studio: '' }]);
  });
});
