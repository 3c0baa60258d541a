import pg from 'pg';
import { step } from '../../scripts/services/step.mjs';
import { inTurn } from '../figures.mjs';
import { openForBench } from '../studio.mjs';
import { perSecond, sameBytes, startBareServer } from './bare.mjs';

const database = 'studio_bench';

/** How the ids of clients are asked for: each by its key, and the page of fifty after it. */
const kinds = {
  'one client by key': (/** @type {string} */ id) => `/${id}`,
  'a page of 50 clients': (/** @type {string} */ id) => `?after=${id}`,
};

/**
 * One client by key, and a page of clients, through the whole API (token, tenancy, logging as in production), against a
 * bare handler that returns the same bytes.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, seconds: number, clients: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function readByKey(processes, { rounds, seconds, clients }) {
  const { adminUrl, apiUrl, headers, studioId, urls } = await openForBench(processes, { database });
  const ids = await step(`inserting ${clients.toLocaleString('en')} clients`, () =>
    insertClients(adminUrl, { studioId, clients }),
  );

  const bareUrl = await startBareServer(processes, {
    BENCH_ADMIN_URL: adminUrl,
    BENCH_API_URL: urls.apiUrl,
    BENCH_STUDIO: studioId,
  });
  const urlsOf = { api: `${apiUrl}/v1/clients`, bare: `${bareUrl}/bare`, tenant: `${bareUrl}/tenant` };

  /** @type {import('../figures.mjs').Figure[]} */
  const figures = [];
  for (const [figure, pathOf] of Object.entries(kinds)) {
    await sameBytes(Object.values(urlsOf), pathOf(ids[0] ?? ''), headers);
    /** @param {string} url */
    const load = (url) => perSecond({ url, paths: ids.map(pathOf), headers, duration: seconds });
    const contenders = {
      api: () => load(urlsOf.api),
      bare: () => load(urlsOf.bare),
      tenant: () => load(urlsOf.tenant),
    };
    await step('warming up', async () => {
      for (const url of Object.values(urlsOf)) await load(url);
    });
    const values = await step(`reading ${figure}`, () => inTurn(rounds, contenders));
    const measured = { name: 'API', unit: 'requests/s', rounds: values.api };
    figures.push(
      {
        ...{ figure, measured, aim: 0.6 },
        baseline: { name: 'bare Fastify and pg', unit: 'requests/s', rounds: values.bare },
      },
      {
        ...{ figure, measured, aim: 0.9 },
        baseline: { name: 'bare, under row-level security', unit: 'requests/s', rounds: values.tenant },
      },
    );
  }
  return figures;
}

/**
 * @param {string} adminUrl
 * @param {{ studioId: string, clients: number }} options
 * @returns {Promise<string[]>} a thousand of their ids, spread over all
 */
async function insertClients(adminUrl, { studioId, clients }) {
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
