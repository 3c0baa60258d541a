import type { ChildProcess } from 'node:child_process';
import { bundleOf } from '../../scripts/services/bundle.mjs';
import { apiEnvironment } from './api-environment.js';
import type { TestDatabase } from './database.js';
import { eventually } from './mail.js';
import { start, stop } from './worker.js';

const main = bundleOf('api');

/** The API as a process of its own, which can be killed and started again at the same address. */
export class ApiProcess {
  private constructor(
    readonly url: string,
    private readonly env: NodeJS.ProcessEnv,
    private process: ChildProcess,
    private readonly log: string[] | undefined,
  ) {}

  /** @param log gets what it writes, which is shown where there is none */
  static async start(
    database: TestDatabase,
    changed: NodeJS.ProcessEnv = {},
    log?: string[],
  ): Promise<ApiProcess> {
    const own = await apiEnvironment(database);
    const env = { PATH: process.env['PATH'], ...own, LOG_LEVEL: 'warn', ...changed };
    const api = new ApiProcess(own.PUBLIC_URL, env, run(env, log), log);
    await api.ready();
    return api;
  }

  /** As if the machine lost its power: whatever is under way is cut off. */
  async restart(): Promise<void> {
    await this.kill();
    this.process = run(this.env, this.log);
    await this.ready();
  }

  async stop(): Promise<void> {
    await stop(this.process);
  }

  async kill(): Promise<void> {
    await stop(this.process, 'SIGKILL');
  }

  private async ready(): Promise<void> {
    await eventually('the API', 120, () =>
      fetch(`${this.url}/health/ready`).then(
        ({ ok }) => ok || undefined,
        () => undefined,
      ),
    );
  }
}

const run = (env: NodeJS.ProcessEnv, log?: string[]): ChildProcess => start(main, env, log);
