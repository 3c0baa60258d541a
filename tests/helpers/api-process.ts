import { spawn, type ChildProcess } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import path from 'node:path';
import { freePort } from '../../scripts/services/ports.mjs';
import type { TestDatabase } from './database.js';
import { eventually } from './mail.js';
import { stop } from './worker.js';

const main = path.join(import.meta.dirname, '../../apps/api/dist/main.js');

/** What an API needs to know: a database, a port of its own and secrets of its own. */
export async function apiEnvironment(database: TestDatabase) {
  const port = String(await freePort());
  return {
    NODE_ENV: 'test',
    DATABASE_URL: database.apiUrl,
    PUBLIC_URL: `http://127.0.0.1:${port}`,
    API_PORT: port,
    TOKEN_SECRET: randomBytes(32).toString('hex'),
    WEBHOOK_KEY: randomBytes(32).toString('hex'),
    MASTER_KEYS: `test:${randomBytes(32).toString('base64url')}`,
    OWNERS_NEED_SECOND_FACTOR: '0',
  };
}

/** The API as a process of its own, which can be killed and started again at the same address. */
export class ApiProcess {
  private constructor(
    readonly url: string,
    private readonly env: NodeJS.ProcessEnv,
    private process: ChildProcess,
  ) {}

  static async start(database: TestDatabase): Promise<ApiProcess> {
    const env = { PATH: process.env['PATH'], ...(await apiEnvironment(database)), LOG_LEVEL: 'warn' };
    const api = new ApiProcess(env.PUBLIC_URL, env, run(env));
    await api.ready();
    return api;
  }

  /** As if the machine lost its power: whatever is under way is cut off. */
  async restart(): Promise<void> {
    await this.kill();
    this.process = run(this.env);
    await this.ready();
  }

  async kill(): Promise<void> {
    await stop(this.process, 'SIGKILL');
  }

  private async ready(): Promise<void> {
    await eventually('the API', 30, () =>
      fetch(`${this.url}/health/ready`).then(
        ({ ok }) => ok || undefined,
        () => undefined,
      ),
    );
  }
}

const run = (env: NodeJS.ProcessEnv): ChildProcess =>
  spawn(process.execPath, [main], { env, stdio: ['ignore', 'inherit', 'inherit'] });
