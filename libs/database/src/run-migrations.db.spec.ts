import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomBytes } from 'node:crypto';
import pg from 'pg';
import type { QueryRunner } from 'typeorm';
import { dropDatabase, prepareDatabase, urlOf } from '../../../scripts/services/roles.mjs';
import { service } from '../../../tests/helpers/database.js';
import { eventually } from '../../../tests/helpers/mail.js';
import { createDataSource } from './data-source.js';
import { concurrently } from './migrations/concurrently.js';
import { migrations } from './migrations/index.js';
import { migrate } from './run-migrations.js';

const adminUrl = service('TEST_PG_ADMIN_URL');
const database = `migrated_${randomBytes(6).toString('hex')}`;
const names = migrations.map(({ name }) => name);
let ownerUrl: string;
let admin: pg.Client;

beforeAll(async () => {
  const passwords = {
    owner: service('TEST_PG_OWNER_PASSWORD'),
    api: service('TEST_PG_API_PASSWORD'),
    worker: service('TEST_PG_WORKER_PASSWORD'),
  };
  ({ ownerUrl } = await prepareDatabase({ adminUrl, database, passwords }));
  admin = new pg.Client({ connectionString: urlOf(adminUrl, { database }) });
  await admin.connect();
});
afterAll(async () => {
  await admin.end();
  await dropDatabase(adminUrl, database);
});

const waiting = async (): Promise<boolean> => {
  const { rows } = await admin.query(
    `SELECT FROM pg_stat_activity
      WHERE datname = $1 AND application_name = 'studio-migrate' AND wait_event_type = 'Lock'`,
    [database],
  );
  return rows.length > 0;
};

describe('migrations', () => {
  it('run once when two run them at the same time', async () => {
    const upTo = names.slice(0, 2);
    const ran = await Promise.all([1, 2].map(() => migrate({ ownerUrl, testClock: false, upTo })));
    expect(ran.flat()).toEqual(upTo);
  });

  it('let go of a lock they cannot get, so that others go on, and try again', async () => {
    const upTo = names.slice(0, names.indexOf('FitSessions1764000003000') + 1);
    const holder = new pg.Client({ connectionString: urlOf(adminUrl, { database }) });
    await holder.connect();
    await holder.query('BEGIN; LOCK TABLE clients IN ACCESS EXCLUSIVE MODE');
    const migrating = migrate({ ownerUrl, testClock: false, upTo });
    await eventually('a wait for the lock', 30, async () => (await waiting()) || undefined);
    await eventually('its end', 30, async () => !(await waiting()) || undefined);
    await holder.end();
    expect(await migrating).toEqual(upTo.slice(2));
  });

  it('make an index of a table in use outside a transaction, and are limited again after it', async () => {
    class IndexInUse1764000099999 {
      readonly transaction = false;
      async up(runner: QueryRunner): Promise<void> {
        await concurrently(
          runner,
          'CREATE INDEX CONCURRENTLY clients_in_use ON clients (studio_id, created_at)',
        );
      }
      async down(runner: QueryRunner): Promise<void> {
        await runner.query('DROP INDEX clients_in_use');
      }
    }
    const dataSource = await createDataSource({
      ...{
        url: ownerUrl,
        poolSize: 1,
        applicationName: 'studio-migrate',
        migrations: [IndexInUse1764000099999],
      },
      serverOptions: '-c lock_timeout=3s -c statement_timeout=60s',
    }).initialize();
    await dataSource.runMigrations({ transaction: 'each' });
    const settings = await dataSource.query<unknown[]>(
      `SELECT current_setting('lock_timeout') AS lock, current_setting('statement_timeout') AS statement,
              (SELECT indisvalid FROM pg_index WHERE indexrelid = 'clients_in_use'::regclass) AS valid`,
    );
    expect(settings).toEqual([{ lock: '3s', statement: '1min', valid: true }]);
    await dataSource.destroy();
  });
});
