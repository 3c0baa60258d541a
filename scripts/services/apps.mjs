import path from 'node:path';
import { bundleOf } from './bundle.mjs';
import { root } from './paths.mjs';
import { freePort } from './ports.mjs';
import { answers, untilHealthy } from './processes.mjs';
import { step } from './step.mjs';

/** @typedef {import('./processes.mjs').Processes} Processes */
/** @typedef {import('./secrets.mjs').Secrets} Secrets */

/**
 * Our own environment less the addresses and secrets in it: each app gets those it is meant to have and no other.
 *
 * @param {NodeJS.ProcessEnv} own
 * @returns {NodeJS.ProcessEnv}
 */
function environment(own) {
  const ours =
    /^(DATABASE_|REDIS_|SMTP_|MAIL_|FITTING_|TOKEN_|LINK_|WEBHOOK_|MASTER_|OWNERS_|TRUSTED_|LOCAL_|API_|WORKER_|PG|npm_)/;
  return { ...Object.fromEntries(Object.entries(process.env).filter(([name]) => !ours.test(name))), ...own };
}

/** Where the API may be started: an address that nothing is at. */
export async function freeApiAddress() {
  return `http://127.0.0.1:${await freePort(Number(process.env['API_PORT'] ?? 3000))}`;
}

/**
 * @param {Processes} processes
 * @param {{ urls: import('./roles.mjs').DatabaseUrls, secrets: Secrets, at?: string, metricsPort?: number }} options `at`:
 *   an address that others have been told already
 * @returns {Promise<string>} its address
 */
export async function startApi(processes, { urls, secrets, at, metricsPort }) {
  const url = at ?? (await freeApiAddress());
  await step('starting the API', () => {
    const env = environment({
      DATABASE_URL: urls.apiUrl,
      API_HOST: '127.0.0.1',
      API_PORT: new URL(url).port,
      PUBLIC_URL: url,
      STORAGE_FOLDER: storageFolder(processes),
      TOKEN_SECRET: secrets.tokenSecret,
      WEBHOOK_KEY: secrets.webhookKey,
      MASTER_KEYS: secrets.masterKeys,
      OWNERS_NEED_SECOND_FACTOR: '0',
      LOCAL_WEBHOOKS: '1',
      TEST_CLOCK: '1',
      ...(metricsPort !== undefined && { API_METRICS_PORT: String(metricsPort) }),
    });
    const running = processes.start('api', process.execPath, [bundleOf('api')], { env });
    return untilHealthy(running, answers(`${url}/health/ready`));
  });
  return url;
}

/**
 * @param {Processes} processes
 * @param {{ urls: import('./roles.mjs').DatabaseUrls, redisUrl: string, smtpUrl: string, publicUrl: string,
 *   secrets: Secrets }} options
 */
export async function startWorker(processes, { urls, redisUrl, smtpUrl, publicUrl, secrets }) {
  const port = await freePort(Number(process.env['WORKER_PORT'] ?? 3001));
  await step('starting the worker', () => {
    const env = environment({
      DATABASE_URL: urls.workerUrl,
      REDIS_URL: redisUrl,
      SMTP_URL: smtpUrl,
      MAIL_FROM: process.env['MAIL_FROM'] ?? 'studio@fitting.example',
      PUBLIC_URL: publicUrl,
      LINK_SECRET: secrets.linkSecret,
      WEBHOOK_KEY: secrets.webhookKey,
      MASTER_KEYS: secrets.masterKeys,
      LOCAL_WEBHOOKS: '1',
      WORKER_HOST: '127.0.0.1',
      WORKER_PORT: String(port),
      STORAGE_FOLDER: storageFolder(processes),
      TEST_CLOCK: '1',
    });
    const running = processes.start('worker', process.execPath, [bundleOf('worker')], { env });
    return untilHealthy(running, answers(`http://127.0.0.1:${port}/health/ready`));
  });
}

/**
 * @param {Processes} processes
 * @param {import('./roles.mjs').DatabaseUrls} urls
 */
export async function makeFirstStudio(processes, urls) {
  await step('making the first studio', () =>
    processes.run('first-studio', process.execPath, [seed('first-studio')], {
      env: environment({ DATABASE_OWNER_URL: urls.ownerUrl }),
    }),
  );
}

/**
 * Plays the job through the API, as an owner and a fitter would.
 *
 * @param {Processes} processes
 * @param {{ apiUrl: string, mailUrl: string | null }} options
 */
export async function playStory(processes, { apiUrl, mailUrl }) {
  const env = environment({ API_URL: apiUrl, ...(mailUrl === null ? {} : { MAIL_URL: mailUrl }) });
  await processes.run('story', process.execPath, [seed('story')], { env, show: true });
}

/**
 * Where both apps keep photos and documents.
 *
 * @param {Processes} processes
 */
function storageFolder(processes) {
  return process.env['STORAGE_FOLDER'] ?? path.join(processes.folder, 'files');
}

/** @param {string} name */
function seed(name) {
  return path.join(root, 'seed', 'dist', `${name}.js`);
}
