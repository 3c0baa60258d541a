import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import pg from 'pg';
import { dataFolder } from '../../../scripts/services/paths.mjs';
import { freePort } from '../../../scripts/services/ports.mjs';
import { removePostgres } from '../../../scripts/services/postgres-files.mjs';
import { startReplica } from '../../../scripts/services/postgres-replica.mjs';
import { startPostgres } from '../../../scripts/services/postgres.mjs';
import { Processes } from '../../../scripts/services/processes.mjs';
import { ReplicaReads } from './replica-reads.js';
import type { SqlRunner } from './sql-runner.js';
import { TenantReads } from './tenant-reads.js';

const studioId = randomUUID();
const processes = new Processes(path.join(dataFolder('test'), 'replica-reads'));
const settings = ['max_connections=30', 'shared_buffers=16MB', 'synchronous_commit=on'];

let primary: pg.Client;
let replica: pg.Client;
let primaryReads: TenantReads;
let reads: ReplicaReads;

beforeAll(async () => {
  await processes.stopLeftovers();
  removePostgres(processes.folder);
  const primaryUrl = await startPostgres(processes, { password: 'for-this-test', throwaway: true, settings });
  const replicaUrl = await startReplica(processes, { primaryUrl, port: await freePort(), settings });
  [primary, replica] = [primaryUrl, replicaUrl].map(
    (connectionString) => new pg.Client({ connectionString }),
  ) as [pg.Client, pg.Client];
  await Promise.all([primary.connect(), replica.connect()]);
  replica.on('error', () => undefined);
  await primary.query('CREATE TABLE numbers (n integer PRIMARY KEY)');
  const pool = { poolSize: 2, applicationName: 'test' };
  primaryReads = new TenantReads({ ...pool, url: primaryUrl });
  reads = new ReplicaReads(
    primaryReads,
    new TenantReads({ ...pool, url: replicaUrl, connectWithinMs: 1_000 }),
  );
});
afterAll(async () => {
  await reads.close();
  await primaryReads.close();
  await Promise.all([primary.end(), replica.end().catch(() => undefined)]);
  await processes.stopAll();
  removePostgres(processes.folder);
});
beforeEach(() => primary.query('DELETE FROM numbers'));

/** What is read, and whether it came from a server in recovery. */
const read = () =>
  reads.run(studioId, async (sql: SqlRunner) => {
    const [row] = await sql.query<{ numbers: number[]; atReplica: boolean }[]>(
      `SELECT ARRAY(SELECT n FROM numbers ORDER BY n) AS numbers, pg_is_in_recovery() AS "atReplica"`,
    );
    return row;
  });

describe('a read that may go to the replica', () => {
  it('goes there, and sees every write that was answered before', async () => {
    for (let n = 1; n <= 50; n += 1) {
      await primary.query('INSERT INTO numbers VALUES ($1)', [n]);
      expect((await read())?.numbers).toHaveLength(n);
    }
    // A read may find it a moment behind; not all of them.
    const where = await Promise.all(Array.from({ length: 20 }, read));
    expect(where.filter((row) => row?.atReplica === true).length).toBeGreaterThan(0);
  });

  it('goes to the primary while the replica lags', async () => {
    await replica.query('SELECT pg_wal_replay_pause()');
    await primary.query('INSERT INTO numbers VALUES (1)');
    expect(await read()).toEqual({ numbers: [1], atReplica: false });
    await replica.query('SELECT pg_wal_replay_resume()');
  });

  it('goes to the primary when the replica fails it, but not because of its own error', async () => {
    let tries = 0;
    const failing = reads.run(studioId, async (sql) => {
      tries += 1;
      await sql.query('SELECT 1');
      throw new Error('its own');
    });
    await expect(failing).rejects.toThrow('its own');
    expect(tries).toBe(1);
    // Only the primary may say this of itself.
    const position = await reads.run(studioId, (sql) => sql.query('SELECT pg_current_wal_lsn()'));
    expect(position).toHaveLength(1);
  });

  it('writes nothing', async () => {
    await expect(reads.run(studioId, (sql) => sql.query('INSERT INTO numbers VALUES (9)'))).rejects.toThrow(
      'read-only transaction',
    );
  });

  it('goes to the primary once the replica has become one itself', async () => {
    await replica.query('SELECT pg_promote()');
    await replica.query('INSERT INTO numbers VALUES (99)');
    expect((await read())?.numbers).toEqual([]);
  });

  it('goes to the primary when the replica is gone', async () => {
    await processes.end('postgres-replica', 'SIGKILL');
    await primary.query('INSERT INTO numbers VALUES (2)');
    expect(await read()).toEqual({ numbers: [2], atReplica: false });
  });
});
