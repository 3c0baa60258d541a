import { dataOf, openClient, signIn } from '@studio/api-client';
import { apiConfig } from '@studio/config';
import { randomBytes, randomUUID } from 'node:crypto';
import { createApp } from '../apps/api/dist/create-app.js';
import { openStudio } from '../seed/dist/open-studio.js';
import { startApi } from '../scripts/services/apps.mjs';
import { migratedDatabase } from '../scripts/services/database.mjs';
import { dropDatabase } from '../scripts/services/roles.mjs';
import { secretsOf } from '../scripts/services/secrets.mjs';
import { postgresService } from '../scripts/services/services.mjs';

const renewEveryMs = 5 * 60_000;

/**
 * A database of its own, an API on it, and a new studio with its owner signed in.
 *
 * @param {import('../scripts/services/processes.mjs').Processes} processes
 * @param {{ database: string, metricsPort?: number, studio?: import('../seed/dist/open-studio.js').FirstStudio }} options
 *   `studio`: an empty one of no name, if none is given
 */
export async function openForBench(processes, { database, metricsPort, studio = emptyStudio() }) {
  const secrets = secretsOf(processes.folder);
  const adminUrl = await postgresService(processes, { throwaway: true });
  await dropDatabase(adminUrl, database);
  const { passwords } = secrets;
  const urls = await migratedDatabase(processes, { adminUrl, database, passwords, testClock: false });
  await openStudio(urls.ownerUrl, studio);
  const apiUrl = await startApi(processes, {
    urls,
    secrets,
    ...(metricsPort !== undefined && { metricsPort }),
  });
  const { email, password } = studio.owner;
  const credentials = { studio: studio.handle, email, password };
  const headers = { authorization: await bearer(apiUrl, credentials) };
  // A token lasts ten minutes, and some loads longer. Renewing fails once the part that it is for is over.
  setInterval(() => {
    bearer(apiUrl, credentials).then(
      (next) => (headers.authorization = next),
      () => undefined,
    );
  }, renewEveryMs).unref();
  return {
    ...{ secrets, urls, apiUrl, studioId: studio.studioId, credentials },
    /** An administrator's, of this database. */
    adminUrl: Object.assign(new URL(adminUrl), { pathname: `/${database}` }).href,
    owner: await signIn(apiUrl, credentials),
    headers,
  };
}

/** @param {string} apiUrl @param {{ studio: string, email: string, password: string }} credentials */
async function bearer(apiUrl, credentials) {
  const { accessToken } = await dataOf(openClient(apiUrl).POST('/v1/sign-ins', { body: credentials }));
  return `Bearer ${accessToken}`;
}

/** @typedef {Awaited<ReturnType<typeof openForBench>>} Bench */

/**
 * The same API in this process, for as long as `work` takes.
 *
 * @template T
 * @param {Bench} bench
 * @param {(apiUrl: string) => Promise<T>} work
 * @returns {Promise<T>}
 */
export async function inThisProcess({ urls, secrets }, work) {
  const { tokenSecret, webhookKey, masterKeys } = secrets;
  const app = await createApp(
    apiConfig({
      ...{ NODE_ENV: 'test', DATABASE_URL: urls.apiUrl, PUBLIC_URL: 'http://127.0.0.1', LOG_LEVEL: 'silent' },
      ...{ TOKEN_SECRET: tokenSecret, WEBHOOK_KEY: webhookKey, MASTER_KEYS: masterKeys },
      OWNERS_NEED_SECOND_FACTOR: '0',
    }),
  );
  try {
    await app.listen(0, '127.0.0.1');
    return await work(await app.getUrl());
  } finally {
    await app.close();
  }
}

function emptyStudio() {
  return {
    studioId: randomUUID(),
    handle: 'bench',
    name: 'Bench',
    timeZone: 'Europe/Copenhagen',
    owner: { email: 'owner@bench.example', displayName: 'Owner', password: randomBytes(12).toString('hex') },
  };
}
