import { dataOf, openClient } from '@studio/api-client';
import { demoStudio } from '../../seed/dist/demo-studio.js';
import { median } from '../figures.mjs';
import { explainEverything, PlanLog } from './plans.mjs';
import { casesOf, reads, writes } from './requests.mjs';

/** A table of fewer rows may be read as a whole. */
export const bigTable = 10_000;
/** Each thing is asked for of so many clients, unless that takes longer than so many seconds. */
const clients = 11;
const longestS = 3;

/**
 * @typedef {{
 *   name: string, ms: number, asked: number, refused: string | null, rowsRead: number | null, mostOf: string | null,
 *   wholeTables: string[],
 * }} Cost `rowsRead`: of big tables, by one request; null where it took too long to look at; `mostOf`: the table of
 *   which one step read the most; `wholeTables`: big ones that were read from end to end
 */

/**
 * @param {import('pg').Client} admin
 * @param {{ apiUrl: string, logFile: string }} options
 * @returns {Promise<Cost[]>}
 */
export async function measure(admin, { apiUrl, logFile }) {
  const { handle, owner, studioId } = demoStudio;
  const { accessToken } = await dataOf(
    openClient(apiUrl).POST('/v1/sign-ins', {
      body: { studio: handle, email: owner.email, password: owner.password },
    }),
  );
  /** @param {import('./requests.mjs').Asked} asked */
  const ask = async ({ path: route, body }) => {
    const began = performance.now();
    const response = await fetch(`${apiUrl}${route}`, {
      headers: {
        authorization: `Bearer ${accessToken}`,
        ...(body && { 'content-type': 'application/json' }),
      },
      ...(body && { method: 'POST', body: JSON.stringify(body) }),
    });
    const text = await response.text();
    return {
      ms: performance.now() - began,
      refused: response.ok ? null : `${response.status} ${text.slice(0, 200)}`,
    };
  };
  const cases = await casesOf(admin, studioId, clients);
  // Of another share the same studio is written to again.
  const { rows } = await admin.query(`SELECT count(*)::int AS turn FROM appointments WHERE studio_id = $1`, [
    studioId,
  ]);
  const from = /** @type {{ turn: number }[]} */ (rows)[0]?.turn ?? 0;
  const requests = cases.map((ids, turn) => [...reads(ids), ...writes(ids, from + turn)]);
  // Again for the plans: a time can be booked but once.
  const again = cases.map((ids, turn) => [...reads(ids), ...writes(ids, from + cases.length + turn)]);

  /** @type {Map<string, { times: number[], refused: string | null }>} */
  const found = new Map();
  for (const name of new Set(requests.flat().map((one) => one.name))) {
    const asked = requests.flatMap((all) => all.filter((one) => one.name === name));
    /** @type {number[]} */
    const times = [];
    let refused = null;
    const until = performance.now() + 1000 * longestS;
    for (const [turn, one] of asked.entries()) {
      const answer = await ask(one);
      refused ??= answer.refused;
      // The first finds nothing prepared; it counts where that is next to nothing.
      if (turn > 0 || asked.length === 1 || performance.now() > until) times.push(answer.ms);
      if (performance.now() > until) break;
    }
    found.set(name, { times, refused });
  }

  const quick = again.flat().filter(({ name }) => median(found.get(name)?.times ?? []) < 1000 * longestS);
  const plans = await plansOf(admin, logFile, ask, quick);
  return Array.from(found, ([name, { times, refused }]) => ({
    ...{ name, ms: median(times), asked: times.length, refused },
    ...(plans.get(name) ?? { rowsRead: null, mostOf: null, wholeTables: [] }),
  }));
}

/** How often something is asked before its plan counts. */
const runs = 7;

/**
 * The last request of each kind, looked at from inside.
 *
 * @param {import('pg').Client} admin
 * @param {string} logFile
 * @param {(asked: import('./requests.mjs').Asked) => Promise<unknown>} ask
 * @param {readonly import('./requests.mjs').Asked[]} requests
 */
async function plansOf(admin, logFile, ask, requests) {
  const { rows } = await admin.query(
    `SELECT relname AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND reltuples >= $1`,
    [bigTable],
  );
  const big = new Set(/** @type {{ name: string }[]} */ (rows).map(({ name }) => name));
  await explainEverything(admin);
  await newConnections(admin);
  await new Promise((resolve) => setTimeout(resolve, 500));
  const log = new PlanLog(logFile);
  /** @type {Map<string, Pick<Cost, 'rowsRead' | 'mostOf' | 'wholeTables'>>} */
  const plans = new Map();
  for (const name of new Set(requests.map((one) => one.name))) {
    // A statement that is prepared is planned for all values alike after it was run five times, if that looks no dearer.
    for (const one of requests.filter((other) => other.name === name).slice(-runs)) {
      log.next();
      await ask(one);
    }
    const scans = log
      .next()
      .flatMap((statement) => statement.scans)
      .filter(({ table }) => big.has(table));
    plans.set(name, {
      rowsRead: scans.reduce((sum, scan) => sum + scan.rows, 0),
      mostOf: scans.toSorted((one, other) => other.rows - one.rows)[0]?.table ?? null,
      wholeTables: [...new Set(scans.filter(({ how }) => how === 'Seq Scan').map(({ table }) => table))],
    });
  }
  log.close();
  const { rows: named } = await admin.query('SELECT current_database() AS name');
  await admin.query(`ALTER DATABASE ${/** @type {{ name: string }[]} */ (named)[0]?.name ?? ''} RESET ALL`);
  await newConnections(admin);
  return plans;
}

/** The API connects anew, under the settings there are now. @param {import('pg').Client} admin */
async function newConnections(admin) {
  await admin.query(
    `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()
        AND backend_type = 'client backend'`,
  );
}
