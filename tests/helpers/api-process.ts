import { spawn, type ChildProcess } from 'node:child_process';
import path from 'node:path';
import { apiEnvironment } from './api-environment.js';
import type { TestDatabase } from './database.js';
import { eventually } from './mail.js';
import { stop } from './worker.js';

const main = path.join(import.meta.dirname, '../../apps/api/dist/main.js');

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
