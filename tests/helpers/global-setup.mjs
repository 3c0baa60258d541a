import path from 'node:path';
import { built } from '../../scripts/services/build.mjs';
import { browserProgram } from '../../scripts/services/chromium.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { untilHealthy } from '../../scripts/services/processes.mjs';
import { startMailCatcher, redisService } from '../../scripts/services/services.mjs';
import { startThrowaway } from '../../scripts/services/throwaway.mjs';
import { runningServices } from './running-services.mjs';

/** Starts what the integration tests need, once for all of them, and names it in the environment. */
export default async function globalSetup() {
  process.stdout.write('\n');
  const throwaway = await startThrowaway('test', { database: 'studio_template' });
  runningServices.stop = throwaway.stop;
  const { processes, adminUrl, database, passwords } = throwaway;
  const redisUrl = await redisService(processes, { throwaway: true });
  const { smtpUrl, mailUrl } = await startMailCatcher(processes);
  await built(processes);
  const apiHost = await startApiHost(processes);
  const chromium = await browserProgram(processes);
  Object.assign(process.env, {
    TEST_PG_ADMIN_URL: adminUrl,
    TEST_PG_TEMPLATE: database,
    TEST_PG_OWNER_PASSWORD: passwords.owner,
    TEST_PG_API_PASSWORD: passwords.api,
    TEST_PG_WORKER_PASSWORD: passwords.worker,
    TEST_REDIS_URL: redisUrl,
    TEST_SMTP_URL: smtpUrl,
    TEST_MAIL_URL: mailUrl,
    TEST_API_HOST: apiHost,
    ...(chromium !== null && { TEST_CHROMIUM: chromium }),
  });
}

/** @param {import('../../scripts/services/processes.mjs').Processes} processes */
async function startApiHost(processes) {
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const program = path.join(import.meta.dirname, 'api-host.mjs');
  const env = { PATH: process.env['PATH'], API_HOST_PORT: String(port) };
  const running = processes.start('api-host', process.execPath, [program], { env });
  await untilHealthy(running, async () => (await fetch(url, { method: 'HEAD' })).status > 0);
  return url;
}
