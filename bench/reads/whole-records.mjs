import { writeFileSync } from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { demoStudio } from '../../seed/dist/demo-studio.js';
import { takeOn } from '../../seed/dist/story/at-the-desk.js';
import { fitOthers } from '../../seed/dist/story/other-riders.js';
import { riders } from '../../seed/dist/story/riders.js';
import { openForTheDay } from '../../seed/dist/story/studio.js';
import { step } from '../../scripts/services/step.mjs';
import { inTurn } from '../figures.mjs';
import { recordStatements } from '../record-statements.mjs';
import { inThisProcess, openForBench } from '../studio.mjs';
import { perSecond, sameBytes, startBareServer } from './bare.mjs';

const database = 'studio_bench_records';
const day = '2090-01-02';

/**
 * What is put together out of many tables, through the whole API: a signed fit session, and the sheet of a day. Against a
 * server that sends the same statements, prepared, past row-level security, and returns the same bytes without putting
 * anything together.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, seconds: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function wholeRecords(processes, { rounds, seconds }) {
  const bench = await openForBench(processes, { database, studio: demoStudio });
  const { adminUrl, apiUrl, headers, studioId, urls } = bench;
  await step('fitting riders', async () => {
    const studio = await openForTheDay(apiUrl);
    for (const [index, rider] of riders.entries()) {
      await takeOn(studio, rider, new Date(`${day}T${String(8 + 3 * index).padStart(2, '0')}:00:00Z`));
    }
    await fitOthers(studio);
  });
  const sessionId = await signedSession(adminUrl, studioId);
  const paths = { session: `/v1/fit-sessions/${sessionId}`, sheet: `/v1/day-sheet?day=${day}` };

  /** @type {Record<string, { statements: { text: string, values: unknown[] }[], body: string }>} */
  const again = {};
  await inThisProcess(bench, async (url) => {
    for (const [name, asked] of Object.entries(paths)) {
      let body = '';
      // Once before: a new connection begins with a statement of its own.
      await (await fetch(`${url}${asked}`, { headers })).text();
      const recorded = await recordStatements(async () => {
        body = await (await fetch(`${url}${asked}`, { headers })).text();
      });
      again[name] = { statements: recorded.map(({ text, values }) => ({ text, values })), body };
    }
  });
  const file = path.join(processes.folder, 'again.json');
  writeFileSync(file, JSON.stringify(again));
  const bareUrl = await startBareServer(processes, {
    ...{ BENCH_ADMIN_URL: adminUrl, BENCH_API_URL: urls.apiUrl, BENCH_STUDIO: studioId },
    BENCH_AGAIN: file,
  });

  /** @type {import('../figures.mjs').Figure[]} */
  const figures = [];
  for (const [figure, name] of /** @type {const} */ ([
    ['one fit session, whole', 'session'],
    [`the sheet of a day with ${riders.length} visits`, 'sheet'],
  ])) {
    const of = { api: `${apiUrl}${paths[name]}`, bare: `${bareUrl}/again/${name}` };
    await sameBytes(Object.values(of), '', headers);
    const search = new URL(of.api).search;
    const contenders = {
      api: () => perSecond({ url: of.api, paths: [search], headers, duration: seconds }),
      bare: () => perSecond({ url: of.bare, paths: [''], headers: {}, duration: seconds }),
    };
    await step('warming up', async () => {
      await contenders.api();
      await contenders.bare();
    });
    const values = await step(`reading ${figure}`, () => inTurn(rounds, contenders));
    figures.push({
      ...{ figure, aim: 0.6 },
      measured: { name: 'API', unit: 'requests/s', rounds: values.api },
      baseline: {
        name: `bare, the same ${again[name]?.statements.length ?? 0} statements and bytes`,
        unit: 'requests/s',
        rounds: values.bare,
      },
    });
  }
  return figures;
}

/** @param {string} adminUrl @param {string} studioId */
async function signedSession(adminUrl, studioId) {
  const client = new pg.Client({ connectionString: adminUrl });
  await client.connect();
  try {
    await client.query('VACUUM ANALYZE');
    /** @type {pg.QueryResult<{ id: string }>} */
    const { rows } = await client.query(
      'SELECT id FROM fit_sessions WHERE studio_id = $1 AND signed_at IS NOT NULL ORDER BY id LIMIT 1',
      [studioId],
    );
    if (!rows[0]) throw new Error('no session was signed');
    return rows[0].id;
  } finally {
    await client.end();
  }
}
