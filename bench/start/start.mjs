import { existsSync } from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { startApi } from '../../scripts/services/apps.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { root } from '../../scripts/services/paths.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { Processes } from '../../scripts/services/processes.mjs';
import { dropDatabase } from '../../scripts/services/roles.mjs';
import { inTurn } from '../figures.mjs';
import { perSecond, startBareServer } from '../reads/bare.mjs';
import { openForBench } from '../studio.mjs';

const database = 'studio_bench_start';

/**
 * How long it takes until something works, and what it holds of memory: the API beside a bare Fastify server with a pool, a
 * migration beside a copy of what it makes, the demo on data and packages that are there.
 *
 * @param {Processes} processes
 * @param {{ rounds: number, seconds: number, demos: number }} length
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function start(processes, { rounds, seconds, demos }) {
  const bench = await openForBench(processes, { database });
  const { adminUrl, secrets, urls, studioId } = bench;
  const bareEnv = { BENCH_ADMIN_URL: adminUrl, BENCH_API_URL: urls.apiUrl, BENCH_STUDIO: studioId };
  /** @param {(own: Processes) => Promise<unknown>} begin @returns {Promise<number>} seconds */
  const started = async (begin) => {
    const own = new Processes(path.join(processes.folder, 'start'));
    try {
      return await secondsOf(() => begin(own));
    } finally {
      await own.stopAll();
    }
  };
  const starts = await inTurn(rounds, {
    api: () => started((own) => startApi(own, { urls, secrets })),
    bare: () => started((own) => startBareServer(own, bareEnv)),
  });
  const schemas = await inTurn(rounds, {
    migration: async () => {
      await dropDatabase(adminUrl, `${database}_new`);
      const { passwords } = secrets;
      const fresh = { adminUrl, database: `${database}_new`, passwords, testClock: false };
      return secondsOf(() => migratedDatabase(processes, fresh));
    },
    copy: () => copied(bench.adminUrl),
  });
  // The first of all is not warm: it makes the data that the others find.
  if (!existsSync(demoData(processes))) await playedDemo(processes);
  const demo = await inTurn(demos, { demo: () => playedDemo(processes) });
  const memory = await inTurn(1, memoryOf(processes, { bench, bareEnv, seconds }));

  /** @param {string} name @param {readonly number[]} values */
  const inSeconds = (name, values) => ({ name, unit: 's', rounds: values });
  /** @param {string} name @param {readonly number[]} values */
  const inMegabytes = (name, values) => ({ name, unit: 'MB', rounds: values });
  return [
    {
      figure: 'API ready',
      measured: inSeconds('API', starts.api),
      baseline: inSeconds('bare Fastify and pg', starts.bare),
      within: 3,
    },
    {
      figure: 'demo, warm, whole story',
      measured: inSeconds('npm run demo -- --once', demo.demo),
      baseline: inSeconds('API ready', starts.api.slice(0, demos)),
      within: 15,
    },
    {
      figure: 'migrating an empty database',
      measured: inSeconds('every migration', schemas.migration),
      baseline: inSeconds('a copy of a migrated one', schemas.copy),
      within: null,
    },
    {
      figure: 'memory at rest',
      measured: inMegabytes('API', memory.apiAtRest),
      baseline: inMegabytes('bare Fastify and pg', memory.bareAtRest),
      within: null,
    },
    {
      figure: 'memory after reads by ten connections',
      measured: inMegabytes('API', memory.apiLoaded),
      baseline: inMegabytes('bare Fastify and pg', memory.bareLoaded),
      within: null,
    },
  ];
}

/** @param {() => Promise<unknown>} work */
async function secondsOf(work) {
  const begun = performance.now();
  await work();
  return (performance.now() - begun) / 1000;
}

/** @param {string} adminUrl */
async function copied(adminUrl) {
  await dropDatabase(adminUrl, `${database}_copy`);
  const client = new pg.Client({
    connectionString: Object.assign(new URL(adminUrl), { pathname: '/postgres' }).href,
  });
  await client.connect();
  try {
    return await secondsOf(() => client.query(`CREATE DATABASE ${database}_copy TEMPLATE ${database}_new`));
  } finally {
    await client.end();
  }
}

/** @param {Processes} processes */
const demoData = (processes) => path.join(processes.folder, 'demo-data');

/** @param {Processes} processes */
async function playedDemo(processes) {
  const script = path.join(root, 'scripts', 'demo.mjs');
  const env = { ...process.env, STUDIO_DATA: demoData(processes) };
  return secondsOf(() => processes.run('demo', process.execPath, [script, '--once'], { env }));
}

/**
 * @param {Processes} processes
 * @param {{ bench: import('../studio.mjs').Bench, bareEnv: Record<string, string>, seconds: number }} options
 */
function memoryOf(processes, { bench: { urls, secrets, headers }, bareEnv, seconds }) {
  /** @type {{ apiUrl: string, bareUrl: string, metricsUrl: string }} */
  const at = { apiUrl: '', bareUrl: '', metricsUrl: '' };
  const ofApi = async () => {
    const text = await (await fetch(at.metricsUrl)).text();
    return Number(/^process_resident_memory_bytes (\S+)$/m.exec(text)?.[1]) / 2 ** 20;
  };
  const ofBare = async () => {
    /** @type {unknown} */
    const answer = await (await fetch(`${at.bareUrl}/memory`)).json();
    return /** @type {{ residentBytes: number }} */ (answer).residentBytes / 2 ** 20;
  };
  const own = new Processes(path.join(processes.folder, 'start'));
  return {
    apiAtRest: async () => {
      const metricsPort = await freePort(3090);
      at.metricsUrl = `http://127.0.0.1:${metricsPort}/metrics`;
      at.apiUrl = await startApi(own, { urls, secrets, metricsPort });
      return ofApi();
    },
    bareAtRest: async () => {
      at.bareUrl = await startBareServer(own, bareEnv);
      return ofBare();
    },
    apiLoaded: async () => {
      await perSecond({ url: `${at.apiUrl}/v1/clients`, paths: [''], headers, duration: 3 * seconds });
      return ofApi();
    },
    bareLoaded: async () => {
      const nobody = '?after=00000000-0000-0000-0000-000000000000';
      await perSecond({ url: `${at.bareUrl}/tenant`, paths: [nobody], headers: {}, duration: 3 * seconds });
      const used = await ofBare();
      await own.stopAll();
      return used;
    },
  };
}
