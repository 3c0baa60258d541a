import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { orderJob } from '@studio/database';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { openStudio } from '../../../../../seed/src/open-studio.js';
import { createTestDatabase, type TestDatabase } from '../../../../../tests/helpers/database.js';
import { connect, type Connected } from '../../../../../tests/helpers/keys.js';
import { ForgetIdempotencyKeysJob } from './forget-idempotency-keys.job.js';

const studioId = randomUUID();

let database: TestDatabase;
let admin: pg.Client;
let connected: Connected;

beforeAll(async () => {
  database = await createTestDatabase();
  const owner = { email: 'owner@keys.example', displayName: 'Owner', password: 'for tests only, and long' };
  await openStudio(database.ownerUrl, {
    ...{ studioId, handle: 'keys', name: 'Keys', timeZone: 'Europe/Oslo', owner },
  });
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  connected = await connect(database.workerUrl, 2);
});
afterAll(async () => {
  await connected.close();
  await admin.end();
  await database.drop();
});

it('forgets keys after a day, with the answers kept beside them, and no younger ones', async () => {
  await admin.query(
    `INSERT INTO idempotency_keys (studio_id, user_id, key, request_hash, answer, created_at)
     SELECT $1, id, hours::text, '\\x00', '{}', now() - make_interval(hours => hours)
       FROM users CROSS JOIN generate_series(22, 26) AS hours WHERE studio_id = $1`,
    [studioId],
  );
  const { transaction } = connected;
  const job = 'forget-idempotency-keys';
  await transaction.run({ studioId }, (tx) => orderJob(tx, { studioId, job, payload: {} }));
  const { rows: orders } = await admin.query<{ id: string }>('SELECT id FROM outbox WHERE job = $1', [job]);
  const outboxId = orders[0]?.id ?? '';
  await new ForgetIdempotencyKeysJob(transaction).handle({ studioId, outboxId, payload: {} });
  const { rows } = await admin.query('SELECT key FROM idempotency_keys ORDER BY key');
  expect(rows).toEqual([{ key: '22' }, { key: '23' }]);
  const { rows: open } = await admin.query('SELECT id FROM outbox WHERE done_at IS NULL AND job = $1', [job]);
  expect(open).toEqual([]);
});
