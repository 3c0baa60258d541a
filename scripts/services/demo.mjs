import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { freeApiAddress, makeFirstStudio, playStory, startApi, startWorker } from './apps.mjs';
import { built } from './build.mjs';
import { migratedDatabase } from './database.mjs';
import { LaunchError } from './launch-error.mjs';
import { root } from './paths.mjs';
import { prepareDatabase } from './roles.mjs';
import { secretsOf } from './secrets.mjs';
import { mailService, postgresService, redisService } from './services.mjs';

/** @typedef {{ role: string, studio: string, email: string, password: string }} SignIn */

/**
 * Starts everything, plays the story, and serves until something ends.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {import('./launch.mjs').Control} control
 * @param {{ once: boolean, apps: boolean }} options
 * @returns {Promise<number>} exit code
 */
export async function runDemo(processes, control, { once, apps }) {
  const secrets = secretsOf(processes.folder);
  // Redis first: it is the one part that may be missing.
  const redisUrl = await redisService(processes, { throwaway: false });
  const [adminUrl, { smtpUrl, mailUrl }] = await Promise.all([
    postgresService(processes, { throwaway: false }),
    mailService(processes),
    ...(apps ? [built(processes)] : []),
  ]);
  const database = {
    adminUrl,
    database: process.env['DATABASE_NAME'] ?? 'fitting_studio',
    passwords: secrets.passwords,
  };

  /** @type {Record<string, string>} */
  const addresses = { SMTP: smtpUrl, ...(mailUrl === null ? {} : { 'Caught mail': `${mailUrl}/` }) };
  /** @type {readonly SignIn[]} */
  let signIns = [];
  if (apps) {
    const urls = await migratedDatabase(processes, { ...database, testClock: true });
    const apiUrl = await freeApiAddress();
    await Promise.all([
      startApi(processes, { urls, secrets, at: apiUrl }),
      startWorker(processes, { urls, redisUrl, smtpUrl, publicUrl: apiUrl, secrets }),
      makeFirstStudio(processes, urls),
    ]);
    await playStory(processes, { apiUrl, mailUrl });
    Object.assign(addresses, { API: apiUrl, 'API docs': `${apiUrl}/docs` });
    signIns = await readSignIns();
  } else {
    const urls = await prepareDatabase(database);
    Object.assign(addresses, { PostgreSQL: urls.ownerUrl, Redis: redisUrl });
  }
  if (once) return 0;

  const ended = processes.firstEnd();
  control.endsOnSignal = true;
  printTable('Serving until Ctrl-C.', Object.entries(addresses));
  if (signIns.length > 0) {
    printTable(
      'Sign-ins of the demo studio:',
      signIns.map(({ role, studio, email, password }) => [role, `${studio}  ${email}  ${password}`]),
    );
  }
  throw new LaunchError(await ended);
}

async function readSignIns() {
  const file = pathToFileURL(path.join(root, 'seed', 'dist', 'sign-ins.js')).href;
  /** @type {unknown} */
  const module = await import(file);
  return /** @type {{ signIns: readonly SignIn[] }} */ (module).signIns;
}

/**
 * @param {string} title
 * @param {readonly (readonly [string, string])[]} rows
 */
function printTable(title, rows) {
  const width = Math.max(...rows.map(([name]) => name.length));
  console.log(['', title, ...rows.map(([name, value]) => `  ${name.padEnd(width)}  ${value}`)].join('\n'));
}
