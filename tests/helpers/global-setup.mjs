import { built } from '../../scripts/services/build.mjs';
import { browserProgram } from '../../scripts/services/chromium.mjs';
import { startMailCatcher, redisService } from '../../scripts/services/services.mjs';
import { startThrowaway } from '../../scripts/services/throwaway.mjs';
import { runningServices } from './running-services.mjs';
import { startApiHost } from './start-api-host.mjs';
import { setUpSpread } from './spread-setup.mjs';

/** Starts what the integration tests need, once for all of them, and names it in the environment. */
export default async function globalSetup() {
  process.stdout.write('\n');
  if (process.env['SPREAD'] === 'suite') return setUpSpread();
  const throwaway = await startThrowaway('test', { database: 'studio_template' });
  runningServices.stop = throwaway.stop;
  const { processes, adminUrl, database, passwords } = throwaway;
  const redisUrl = await redisService(processes, { throwaway: true });
  const { smtpUrl, mailUrl } = await startMailCatcher(processes);
  await built(processes);
  const apiHost = await startApiHost(processes, 'api-host');
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
