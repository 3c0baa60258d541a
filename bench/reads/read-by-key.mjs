import { dataOf, openClient } from '@studio/api-client';
import autocannon from 'autocannon';
import { randomBytes, randomUUID } from 'node:crypto';
import pg from 'pg';
import { openStudio } from '../../seed/dist/open-studio.js';
import { startApi } from '../../scripts/services/apps.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { untilHealthy } from '../../scripts/services/processes.mjs';
import { dropDatabase } from '../../scripts/services/roles.mjs';
import { secretsOf } from '../../scripts/services/secrets.mjs';
import { postgresService } from '../../scripts/services/services.mjs';
import { step } from '../../scripts/services/step.mjs';
import { inTurn } from '../figures.mjs';

const clients = 200_000;
const database = 'studio_bench';

/**
 * One client by key through the whole API (token, tenancy, logging as in production), against a bare handler that
 * returns the same bytes.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, seconds: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function readByKey(processes, { rounds, seconds }) {
  const secrets = secretsOf(processes.folder);
  const adminUrl = await postgresService(processes, { throwaway: true });
  await dropDatabase(adminUrl, database);
  const urls = await migratedDatabase(processes, {
    adminUrl,
    database,
    passwords: secrets.passwords,
    testClock: false,
  });
  const ownAdminUrl = Object.assign(new URL(adminUrl), { pathname: `/${database}` }).href;

  const studio = {
    studioId: randomUUID(),
    handle: 'bench',
    name: 'Bench',
    timeZone: 'Europe/Copenhagen',
    owner: { email: 'owner@bench.example', displayName: 'Owner', password: randomBytes(12).toString('hex') },
  };
  await openStudio(urls.ownerUrl, studio);
  const ids = await step(`inserting ${clients.toLocaleString('en')} clients`, () =>
    insertClients(ownAdminUrl, studio.studioId),
  );

  const apiUrl = await startApi(processes, { urls, secrets });
  const bareUrl = await startBareServer(processes, {
    BENCH_ADMIN_URL: ownAdminUrl,
    BENCH_API_URL: urls.apiUrl,
    BENCH_STUDIO: studio.studioId,
  });
  const { email, password } = studio.owner;
  const { accessToken } = await dataOf(
    openClient(apiUrl).POST('/v1/sign-ins', { body: { studio: studio.handle, email, password } }),
  );
  const headers = { authorization: `Bearer ${accessToken}` };
  await sameBytes([`${apiUrl}/v1/clients`, `${bareUrl}/bare`, `${bareUrl}/tenant`], ids[0] ?? '', headers);

  /** @param {string} url @param {number} duration */
  const load = (url, duration) => perSecond({ url, ids, headers, duration });
  const contenders = {
    api: () => load(`${apiUrl}/v1/clients`, seconds),
    bare: () => load(`${bareUrl}/bare`, seconds),
    tenant: () => load(`${bareUrl}/tenant`, seconds),
  };
  await step('warming up', async () => {
    for (const url of [`${apiUrl}/v1/clients`, `${bareUrl}/bare`, `${bareUrl}/tenant`])
      await load(url, seconds);
  });
  const values = await step('reading', () => inTurn(rounds, contenders));

  const measured = { name: 'API', unit: 'requests/s', rounds: values.api };
  return [
    {
      figure: 'one client by key',
      measured,
      baseline: { name: 'bare Fastify and pg', unit: 'requests/s', rounds: values.bare },
      aim: 0.6,
    },
    {
      figure: 'one client by key',
      measured,
      baseline: { name: 'bare, under row-level security', unit: 'requests/s', rounds: values.tenant },
      aim: 0.9,
    },
  ];
}

/**
 * @param {string} adminUrl
 * @param {string} studioId
 * @returns {Promise<string[]>} a thousand of their ids, spread over all
 */
async function insertClients(adminUrl, studioId) {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    await client.query(
      `INSERT INTO clients (studio_id, given_name, family_name, email, phone, born_on)
       SELECT $1, 'Given ' || n, 'Family ' || n, 'rider' || n || '@bench.example', '+4520000000', date '1980-01-01' + n % 9000
         FROM generate_series(1, $2::integer) n`,
      [studioId, clients],
    );
    await client.query('VACUUM ANALYZE clients');
    const { rows } = await client.query('SELECT id FROM clients ORDER BY random() LIMIT 1000');
    return /** @type {{ id: string }[]} */ (rows).map(({ id }) => id);
  } finally {
    await client.end();
  }
}

/**
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {Record<string, string>} env
 */
async function startBareServer(processes, env) {
  const port = await freePort(3100);
  const url = `http://127.0.0.1:${port}`;
  const script = new URL('./bare-server.mjs', import.meta.url).pathname;
  const running = processes.start('bare-server', process.execPath, [script], {
    env: { ...process.env, ...env, BENCH_PORT: String(port) },
  });
  // It has no health route: that it answers at all is enough.
  await untilHealthy(running, async () => (await fetch(url)).status === 404);
  return url;
}

/**
 * A baseline that answers something else would prove nothing.
 *
 * @param {readonly string[]} urls
 * @param {string} id
 * @param {Record<string, string>} headers
 */
async function sameBytes(urls, id, headers) {
  const bodies = await Promise.all(
    urls.map(async (url) => (await fetch(`${url}/${id}`, { headers })).text()),
  );
  if (new Set(bodies).size !== 1 || bodies[0]?.includes(id) !== true) {
    throw new Error(`the servers answer differently:\n${bodies.join('\n')}`);
  }
}

/**
 * @param {{ url: string, ids: readonly string[], headers: Record<string, string>, duration: number }} load
 * @returns {Promise<number>} requests answered per second by ten connections
 */
async function perSecond({ url, ids, headers, duration }) {
  const { pathname } = new URL(url);
  const result = await autocannon({
    url,
    connections: 10,
    duration,
    headers,
    requests: ids.map((id) => ({ path: `${pathname}/${id}` })),
  });
  if (result.non2xx > 0 || result.errors > 0)
    throw new Error(`${result.non2xx + result.errors} requests failed`);
  return result.requests.average;
}
