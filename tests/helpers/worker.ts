import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { bundleOf } from '../../scripts/services/bundle.mjs';
import { webhookKey, type TestApi } from './studio.js';
import { pooled, service } from './database.js';
import { masterKeys } from './master-keys.js';

const main = bundleOf('worker');

/** The worker as it runs in production, a process of its own. */
export function startWorker(
  api: Pick<TestApi, 'url' | 'database'> & Partial<Pick<TestApi, 'storageFolder'>>,
  queuePrefix: string,
  changed: NodeJS.ProcessEnv = {},
  log?: string[],
): ChildProcess {
  return start(
    main,
    {
      PATH: process.env['PATH'],
      NODE_ENV: 'test',
      DATABASE_URL: api.database.workerUrl,
      REDIS_URL: service('TEST_REDIS_URL'),
      SMTP_URL: service('TEST_SMTP_URL'),
      MAIL_FROM: 'studio@fitting.example',
      LINK_SECRET: 'a secret for the links of tests only',
      WEBHOOK_KEY: webhookKey,
      MASTER_KEYS: masterKeys,
      LOCAL_WEBHOOKS: '1',
      PUBLIC_URL: api.url,
      STORAGE_FOLDER: api.storageFolder ?? tmpdir(),
      WORKER_PORT: '0',
      LOG_LEVEL: 'warn',
      QUEUE_PREFIX: queuePrefix,
      ...(process.env['TEST_REDIS_SENTINELS'] !== undefined && {
        REDIS_URL: 'redis://known-to-the-sentinels',
        REDIS_SENTINELS: process.env['TEST_REDIS_SENTINELS'],
      }),
      ...(pooled && { DATABASE_POOLED: '1' }),
      ...changed,
    },
    log,
  );
}

/** @param log gets what the process writes, which is shown where there is none */
export function start(file: string, env: NodeJS.ProcessEnv, log?: string[]): ChildProcess {
  const to = log ? 'pipe' : 'inherit';
  const started = spawn(process.execPath, [file], { env, stdio: ['ignore', to, to] });
  for (const stream of [started.stdout, started.stderr]) {
    stream?.setEncoding('utf8').on('data', (text: string) => log?.push(text));
  }
  return started;
}

/** @returns exit code, or null when a signal ended it */
export async function stop(worker: ChildProcess, signal: NodeJS.Signals = 'SIGTERM'): Promise<number | null> {
  if (worker.exitCode !== null || worker.signalCode !== null) return worker.exitCode;
  const ended = once(worker, 'exit') as Promise<[number | null]>;
  worker.kill(signal);
  return (await ended)[0];
}
