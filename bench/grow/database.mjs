import { startApi, startWorker } from '../../scripts/services/apps.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { Processes } from '../../scripts/services/processes.mjs';
import { dropDatabase } from '../../scripts/services/roles.mjs';
import { redisService, startMailCatcher } from '../../scripts/services/services.mjs';
import { step } from '../../scripts/services/step.mjs';
import { demoStudio } from '../../seed/dist/demo-studio.js';
import { openStudio } from '../../seed/dist/open-studio.js';
import pg from 'pg';
import path from 'node:path';
import { modelOf } from './model-rows.mjs';
import { copyClients, copyStudios } from './multiply.mjs';
import { progressBar } from './progress-bar.mjs';

/** Copies of the model's ten clients, with five visits each, that make the whole: 1,000 clients, 5,000 visits a studio. */
const wholeCopies = 100;
const visits = 5;

/**
 * @typedef {import('./model-rows.mjs').Model} Model
 * @typedef {{ seed: number, studios: number }} Size
 * @typedef {{ table: string, rows: number, heapBytes: number, indexBytes: number }} TableSize
 * @typedef {{ admin: pg.Client, urls: import('../../scripts/services/roles.mjs').DatabaseUrls }} Grown
 */

/**
 * The database as an earlier run left it, or a new one with the model's studio in it.
 *
 * @param {Processes} processes
 * @param {{ adminUrl: string, database: string, secrets: import('../../scripts/services/secrets.mjs').Secrets, size: Size }} options
 * @returns {Promise<Grown>}
 */
export async function openDatabase(processes, { adminUrl, database, secrets, size }) {
  const connect = async () => {
    const admin = new pg.Client({
      connectionString: Object.assign(new URL(adminUrl), { pathname: `/${database}` }).href,
    });
    await admin.connect();
    // The server may be stopped before it.
    admin.on('error', () => undefined);
    return admin;
  };
  const left = await connect().catch(() => null);
  if (left !== null && (await isOfSize(left, size))) {
    const { passwords } = secrets;
    const urls = await migratedDatabase(processes, { adminUrl, database, passwords, testClock: true });
    return { admin: left, urls };
  }
  await left?.end();
  await dropDatabase(adminUrl, database);
  const { passwords } = secrets;
  const urls = await migratedDatabase(processes, { adminUrl, database, passwords, testClock: true });
  await step('telling what the model’s ten clients live through', () =>
    tellModel(processes, { urls, secrets }),
  );
  const admin = await connect();
  await step('copying the studio', async () => {
    const model = await modelOf(admin, demoStudio.studioId);
    await inOne(admin, async () => {
      await copyStudios(admin, model, size.studios);
      await admin.query('CREATE SCHEMA grow');
      await admin.query('CREATE TABLE grow.model (model text, size text)');
      await admin.query('CREATE TABLE grow.copies (copy integer PRIMARY KEY, rows integer NOT NULL)');
      await admin.query('INSERT INTO grow.model VALUES ($1, $2)', [JSON.stringify(model), spelled(size)]);
    });
  });
  return { admin, urls };
}

/** @param {Size} size */
const spelled = ({ seed, studios }) => `${studios} studios, seed ${seed}`;

/** Whether a run of the same size got as far as to have a model. @param {pg.Client} admin @param {Size} size */
async function isOfSize(admin, size) {
  const { rows } = await admin.query('SELECT to_regclass($1) IS NOT NULL AS is', ['grow.model']);
  if (!(/** @type {{ is: boolean }[]} */ (rows)[0]?.is)) return false;
  const found = await admin.query('SELECT FROM grow.model WHERE size = $1', [spelled(size)]);
  return found.rowCount === 1;
}

/**
 * The API, a worker and what they need, only for as long as the story takes.
 *
 * @param {Processes} processes
 * @param {{ urls: Grown['urls'], secrets: import('../../scripts/services/secrets.mjs').Secrets }} options
 */
async function tellModel({ folder }, { urls, secrets }) {
  const own = new Processes(path.join(folder, 'model'));
  try {
    await own.stopLeftovers();
    const redisUrl = await redisService(own, { throwaway: true });
    const { smtpUrl, mailUrl } = await startMailCatcher(own);
    await openStudio(urls.ownerUrl, demoStudio);
    const apiUrl = await startApi(own, { urls, secrets });
    await startWorker(own, { urls, redisUrl, smtpUrl, publicUrl: apiUrl, secrets });
    const story = path.join(import.meta.dirname, 'model-studio.mjs');
    const env = { ...process.env, API_URL: apiUrl, MAIL_URL: mailUrl };
    await own.run('story', process.execPath, [story], { env });
  } finally {
    await own.stopAll();
  }
}

/**
 * Copies clients until there are as many as asked for, each copy in a transaction of its own: cut off, it goes on where it
 * was.
 *
 * @param {pg.Client} admin
 * @param {Size & { share: number }} options
 */
export async function growTo(admin, { seed, studios, share }) {
  /** @type {pg.QueryResult<{ model: string, done: number }>} */
  const { rows } = await admin.query(
    `SELECT model, (SELECT count(*) FROM grow.copies)::int AS done FROM grow.model`,
  );
  const [{ model: text, done } = { model: '', done: 0 }] = rows;
  /** @type {unknown} */
  const parsed = JSON.parse(text);
  const model = /** @type {Model} */ (parsed);
  const copies = Math.round(share * wholeCopies);
  const bar = progressBar(`growing to ${share * 100} %`, copies - done);
  for (let copy = done; copy < copies; copy += 1) {
    // The last lie a hundred days before the model, so that all has come due.
    const spread = { seed, visits, daysApart: 1, firstDay: -100 - wholeCopies * visits };
    await inOne(admin, async () => {
      const written = await copyClients(admin, model, { from: copy, until: copy + 1, studios, spread });
      await admin.query('INSERT INTO grow.copies VALUES ($1, $2)', [copy, written]);
    });
    bar(copy + 1 - done);
  }
}

/** In one transaction, while triggers and foreign keys rest. @param {pg.Client} admin @param {() => Promise<void>} work */
async function inOne(admin, work) {
  await admin.query('BEGIN');
  await admin.query('SET LOCAL session_replication_role = replica');
  try {
    await work();
    await admin.query('COMMIT');
  } catch (error) {
    await admin.query('ROLLBACK');
    throw error;
  }
}

/**
 * What lies in the tables now.
 *
 * @param {pg.Client} admin
 * @returns {Promise<TableSize[]>}
 */
export async function sizesOf(admin) {
  /** @type {pg.QueryResult<TableSize>} */
  const { rows } = await admin.query(
    `SELECT relname AS table, reltuples::float8 AS rows, pg_table_size(oid)::float8 AS "heapBytes",
            pg_indexes_size(oid)::float8 AS "indexBytes"
       FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind = 'r' AND reltuples > 0
      ORDER BY pg_total_relation_size(oid) DESC`,
  );
  return rows;
}
