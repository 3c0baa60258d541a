import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { built } from './build.mjs';
import { migratedDatabase } from './database.mjs';
import { waitForLock } from './lock.mjs';
import { dataFolder } from './paths.mjs';
import { removePostgres } from './postgres-files.mjs';
import { Processes } from './processes.mjs';
import { dropDatabase } from './roles.mjs';
import { secretsOf } from './secrets.mjs';
import { postgresService } from './services.mjs';

/**
 * @typedef {{
 *   processes: Processes, adminUrl: string, database: string, passwords: import('./roles.mjs').Passwords,
 *   urls: import('./roles.mjs').DatabaseUrls, stop: () => Promise<void>,
 * }} Throwaway
 */

/**
 * An empty, migrated database for a check or for tests, on a PostgreSQL of its own (or on the one DATABASE_URL
 * names). Nothing of it is left after `stop`, which a signal calls as well.
 *
 * @param {'test' | 'check'} kind
 * @param {{ database: string }} options
 * @returns {Promise<Throwaway>}
 */
export async function startThrowaway(kind, { database }) {
  const folder = dataFolder(kind);
  const purpose = kind === 'test' ? 'a test run' : 'a check';
  const release = await waitForLock(path.join(folder, 'lock.json'), purpose, { atMostMs: 3000 });
  const processes = new Processes(folder);
  let cleanUp = () => Promise.resolve();
  const stop = async () => {
    await cleanUp();
    await processes.stopAll();
    forget(folder);
    release();
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.once(signal, () => void stop().finally(() => process.exit(130)));
  }
  try {
    await processes.stopLeftovers();
    forget(folder);
    await built(processes, ['libs/database']);
    const { passwords } = secretsOf(folder);
    const adminUrl = await postgresService(processes, { throwaway: true });
    if (process.env['DATABASE_URL'] !== undefined) {
      cleanUp = () => dropDatabase(adminUrl, database);
      await cleanUp();
    }
    const urls = await migratedDatabase(processes, { adminUrl, database, passwords, testClock: true });
    return { processes, adminUrl, database, passwords, urls, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

/** @param {string} folder */
function forget(folder) {
  mkdirSync(folder, { recursive: true });
  removePostgres(folder);
  for (const name of ['redis', 'mail']) rmSync(path.join(folder, name), { recursive: true, force: true });
}
