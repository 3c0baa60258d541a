import { afterAll, beforeAll, expect, it } from '@jest/globals';
import { dataOf, signIn, type StudioClient } from '@studio/api-client';
import { spawn, type ChildProcess } from 'node:child_process';
import { randomBytes, randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { connect } from 'node:net';
import pg from 'pg';
import { bundleOf } from '../../scripts/services/bundle.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { createTestDatabase, type TestDatabase } from '../helpers/database.js';
import { eventually } from '../helpers/mail.js';
import { stop } from '../helpers/worker.js';
import { openStudio } from '../helpers/studio.js';

const main = bundleOf('api');
const owner = { email: 'owner@stopping.example', displayName: 'Owner', password: 'for tests only' };

let database: TestDatabase;
let api: ChildProcess;
let url: string;
let studio: StudioClient;

beforeAll(async () => {
  database = await createTestDatabase();
  await openStudio(database.ownerUrl, {
    studioId: randomUUID(),
    handle: 'stopping',
    name: 'Stopping',
    timeZone: 'Europe/Oslo',
    owner,
  });
  const port = String(await freePort(3200));
  url = `http://127.0.0.1:${port}`;
  api = spawn(process.execPath, [main], {
    env: {
      PATH: process.env['PATH'],
      DATABASE_URL: database.apiUrl,
      PUBLIC_URL: url,
      API_PORT: port,
      TOKEN_SECRET: randomBytes(32).toString('hex'),
      WEBHOOK_KEY: randomBytes(32).toString('hex'),
      MASTER_KEYS: `test:${randomBytes(32).toString('base64url')}`,
      OWNERS_NEED_SECOND_FACTOR: '0',
      LOG_LEVEL: 'warn',
    },
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  await eventually('the API', 20, () =>
    fetch(`${url}/health/ready`).then(
      ({ ok }) => ok || undefined,
      () => undefined,
    ),
  );
  studio = await signIn(url, { studio: 'stopping', email: owner.email, password: owner.password });
});
afterAll(async () => {
  await stop(api, 'SIGKILL');
  await database.drop();
});

it('finishes what it has begun, takes nothing new, and ends with code 0', async () => {
  // As browsers and balancers do: one connection for later, and one that a request is yet to come whole by.
  const { hostname, port } = new URL(url);
  const silent = [connect(Number(port), hostname), connect(Number(port), hostname)];
  await Promise.all(silent.map((socket) => once(socket, 'connect')));
  silent[1]?.write('GET /health/live HTTP/1.1\r\nHost:');
  const cut = silent.map((socket) => once(socket, 'close'));
  const admin = new pg.Pool({ connectionString: database.adminUrl });
  const holder = await admin.connect();
  // While the table is locked, what was sent can only wait.
  await holder.query('BEGIN; LOCK TABLE clients IN ACCESS EXCLUSIVE MODE');
  const sent = Array.from({ length: 5 }, (_, n) =>
    dataOf(studio.POST('/v1/clients', { body: { givenName: `Given ${n}`, familyName: 'Family' } })),
  );
  await eventually('five waiting writes', 10, async () => {
    const { rows } = await admin.query(
      `SELECT FROM pg_stat_activity WHERE wait_event_type = 'Lock' AND query ILIKE 'INSERT INTO "clients"%'`,
    );
    return rows.length === 5 || undefined;
  });

  const ended = stop(api);
  await Promise.all(cut);
  await eventually('a closed port', 10, () =>
    fetch(`${url}/health/live`).then(
      () => undefined,
      () => true,
    ),
  );
  await holder.query('COMMIT');
  holder.release();

  const answered = await Promise.all(sent);
  const { rows } = await admin.query<{ id: string }>('SELECT id FROM clients');
  expect(answered.map(({ id }) => id).sort()).toEqual(rows.map(({ id }) => id).sort());
  expect(rows).toHaveLength(5);
  expect(await ended).toBe(0);
  await admin.end();
});
