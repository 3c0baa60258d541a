import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { built } from '../../scripts/services/build.mjs';
import { browserProgram } from '../../scripts/services/chromium.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { dataFolder } from '../../scripts/services/paths.mjs';
import { removePostgres } from '../../scripts/services/postgres-files.mjs';
import { Processes } from '../../scripts/services/processes.mjs';
import { secretsOf } from '../../scripts/services/secrets.mjs';
import { startMailCatcher } from '../../scripts/services/services.mjs';
import { requireSpreadPrograms, startPooler, startSpreadData } from '../../scripts/services/spread.mjs';
import { runningServices } from './running-services.mjs';
import { startApiHost } from './start-api-host.mjs';

/** Names in the environment what `globalSetup` does, but of the parts of several machines. */
export async function setUpSpread() {
  requireSpreadPrograms();
  const { processes, stop } = await emptyRun('suite');
  runningServices.stop = stop;
  await built(processes);
  const { primaryUrl, replicaUrl, redisUrl, sentinels } = await startSpreadData(processes);
  const { passwords } = secretsOf(processes.folder);
  const template = 'studio_template';
  await migratedDatabase(processes, {
    ...{ adminUrl: primaryUrl, database: template, passwords, testClock: true },
  });
  // Not the template: it can be copied only while nobody is connected to it.
  const pooler = await startPooler(processes, { primaryUrl, passwords, database: 'postgres' });
  const { smtpUrl, mailUrl } = await startMailCatcher(processes);
  const replica = new URL(replicaUrl).host;
  const [first, second] = [
    await startApiHost(processes, 'api-host-1'),
    await startApiHost(processes, 'api-host-2'),
  ];
  const apiHost = await startApiHost(processes, 'balanced-api-host', {
    API_HOSTS: `${first},${second}`,
    TEST_PG_REPLICA: replica,
    BALANCERS_FOLDER: path.join(processes.folder, 'balancers'),
  });
  const chromium = await browserProgram(processes);
  Object.assign(process.env, {
    TEST_PG_ADMIN_URL: primaryUrl,
    TEST_PG_TEMPLATE: template,
    TEST_PG_OWNER_PASSWORD: passwords.owner,
    TEST_PG_API_PASSWORD: passwords.api,
    TEST_PG_WORKER_PASSWORD: passwords.worker,
    TEST_PG_POOLER: pooler.address,
    TEST_REDIS_URL: redisUrl,
    TEST_REDIS_SENTINELS: sentinels.join(','),
    TEST_SMTP_URL: smtpUrl,
    TEST_MAIL_URL: mailUrl,
    TEST_API_HOST: apiHost,
    ...(chromium !== null && { TEST_CHROMIUM: chromium }),
  });
}

/**
 * A run that begins with nothing and leaves nothing.
 *
 * @param {'suite' | 'failover'} name
 */
export async function emptyRun(name) {
  const folder = path.join(dataFolder('test'), 'spread', name);
  const processes = new Processes(folder);
  await processes.stopLeftovers();
  const forget = () => {
    removePostgres(folder);
    rmSync(folder, { recursive: true, force: true });
  };
  forget();
  for (const part of ['pids', 'logs']) mkdirSync(path.join(folder, part), { recursive: true });
  return {
    processes,
    stop: async () => {
      await processes.stopAll();
      forget();
    },
  };
}
