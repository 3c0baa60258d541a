import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import pg from 'pg';
import type { DataSource } from 'typeorm';
import { dataFolder } from '../../../scripts/services/paths.mjs';
import { findPgbouncer, startPgbouncer } from '../../../scripts/services/pgbouncer.mjs';
import { freePort } from '../../../scripts/services/ports.mjs';
import { Processes } from '../../../scripts/services/processes.mjs';
import { createTestDatabase, service, type TestDatabase } from '../../../tests/helpers/database.js';
import { createDataSource } from './data-source.js';
import { StudioKeys } from './studio-keys.js';
import { TenantReads } from './tenant-reads.js';
import { TenantTransaction } from './tenant-transaction.js';

const studioIds = [randomUUID(), randomUUID(), randomUUID()] as const;
const [studioId] = studioIds;
const installed = findPgbouncer() !== null;

(installed ? describe : describe.skip)(
  `behind PgBouncer in transaction mode${installed ? '' : ', which is not installed: apt-get install pgbouncer'}`,
  () => {
    let processes: Processes;
    let database: TestDatabase;
    let dataSource: DataSource;
    let reads: TenantReads;
    let transaction: TenantTransaction;

    beforeAll(async () => {
      database = await createTestDatabase();
      const admin = new pg.Client({ connectionString: database.adminUrl });
      await admin.connect();
      for (const id of studioIds) {
        await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'S', 'UTC')`, [id]);
      }
      await admin.end();
      processes = new Processes(path.join(dataFolder('test'), 'pooled'));
      await processes.stopLeftovers();
      const url = new URL(database.workerUrl);
      const postgresPort = Number(url.port);
      url.port = String(await freePort());
      await startPgbouncer(processes, {
        ...{ port: Number(url.port), postgresPort, probe: url.href },
        users: { fitting_worker: service('TEST_PG_WORKER_PASSWORD') },
        // So that every transaction meets what the one before has left.
        poolSize: 1,
      });
      const pool = { url: url.href, poolSize: 4, applicationName: 'test', pooled: true };
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
      await processes.stopAll();
      await database.drop();
    });

    const names = (sql: string) => (id: string) =>
      transaction.read({ studioId: id }, (tx) => tx.query<{ id: string }[]>(sql));

    it('reads, transactions and writes of many studios keep apart on one connection', async () => {
      const seen = await Promise.all(
        Array.from({ length: 20 }, () => studioIds)
          .flat()
          .map(async (id, n) => {
            // Other texts, so that other statements would have been prepared.
            const read = await names(`SELECT id, ${n % 7} AS n FROM studios`)(id);
            const inTransaction = await transaction.run({ studioId: id }, (tx) =>
              tx.query<{ id: string }[]>('SELECT id FROM studios'),
            );
            return [...read, ...inTransaction].every((row) => row.id === id) && read.length === 1;
          }),
      );
      expect(seen.filter(Boolean)).toHaveLength(60);
    });

    it('nothing of a studio is left on the connection', async () => {
      await names('SELECT id FROM studios')(studioId);
      expect(await dataSource.query('SELECT id FROM studios')).toEqual([]);
      expect(await dataSource.query(`SELECT current_setting('transaction_read_only') AS is`)).toEqual([
        { is: 'off' },
      ]);
    });

    it('a read cannot write, and writes can', async () => {
      const write = `INSERT INTO outbox (studio_id, job, payload) VALUES ('${studioId}', 'seal-audit', '{}')`;
      await expect(names(write)(studioId)).rejects.toThrow('read-only transaction');
      await transaction.write({ studioId }, [{ text: write, values: [] }]);
      expect(await names('SELECT id FROM outbox')(studioId)).toHaveLength(1);
    });
  },
);
