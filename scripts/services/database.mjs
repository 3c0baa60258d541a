import path from 'node:path';
import { root } from './paths.mjs';
import { databaseUrls } from './roles.mjs';
import { step } from './step.mjs';

/**
 * Roles, database and schema, brought up to date by the script that also does so in production.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {{
 *   adminUrl: string, database: string, passwords: import('./roles.mjs').Passwords, testClock: boolean,
 * }} options
 * @returns {Promise<import('./roles.mjs').DatabaseUrls>}
 */
export async function migratedDatabase(processes, { adminUrl, database, passwords, testClock }) {
  await step('migrating the database', () =>
    processes.run('migrate', process.execPath, [path.join(root, 'scripts', 'migrate.mjs')], {
      env: {
        ...process.env,
        DATABASE_URL: adminUrl,
        DATABASE_NAME: database,
        FITTING_OWNER_PASSWORD: passwords.owner,
        FITTING_API_PASSWORD: passwords.api,
        FITTING_WORKER_PASSWORD: passwords.worker,
        TEST_CLOCK: testClock ? '1' : '0',
      },
    }),
  );
  return databaseUrls({ adminUrl, database, passwords });
}
