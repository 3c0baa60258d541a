import type { ChildProcess } from 'node:child_process';
import pg from 'pg';
import { bundleOf } from '../../scripts/services/bundle.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { startHaproxy, type Haproxy } from '../../scripts/services/haproxy.mjs';
import { sessionName, type Pgbouncer } from '../../scripts/services/pgbouncer.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { answers, untilHealthy, type Processes } from '../../scripts/services/processes.mjs';
import type { DatabaseUrls } from '../../scripts/services/roles.mjs';
import { secretsOf } from '../../scripts/services/secrets.mjs';
import { startPooler, startSpreadData } from '../../scripts/services/spread.mjs';
import { apiEnvironment } from '../helpers/api-environment.js';
import { startWorker, stop } from '../helpers/worker.js';

const database = 'fitting_studio';

type ApiName = 'api-1' | 'api-2';

/** An installation on the parts of several machines, and a hand on each of them. */
export class Installation {
  private readonly workers: ChildProcess[] = [];

  private constructor(
    private readonly processes: Processes,
    readonly urls: DatabaseUrls,
    readonly primaryUrl: string,
    readonly replicaUrl: string,
    private readonly sentinels: readonly string[],
    private readonly pooler: Pgbouncer,
    private readonly balancer: Haproxy,
    private readonly apis: Readonly<Record<ApiName, NodeJS.ProcessEnv>>,
  ) {}

  static async start(processes: Processes): Promise<Installation> {
    const data = await startSpreadData(processes);
    const { passwords } = secretsOf(processes.folder);
    const urls = await migratedDatabase(processes, {
      ...{ adminUrl: data.primaryUrl, database, passwords, testClock: true },
    });
    const pooler = await startPooler(processes, { primaryUrl: data.primaryUrl, passwords, database });
    const replicaUrl = new URL(data.replicaUrl);
    const apis = await apiEnvironments({
      databaseUrl: through(pooler.address, urls.apiUrl),
      replicaUrl: through(replicaUrl.host, urls.apiUrl),
    });
    const servers = Object.fromEntries(
      Object.entries(apis).map(([name, env]) => [name, `127.0.0.1:${env.API_PORT}`]),
    );
    for (const [name, env] of Object.entries(apis)) await startApi(processes, name as ApiName, env);
    const port = Number(new URL(apis['api-1'].PUBLIC_URL).port);
    const balancer = await startHaproxy(processes, { name: 'haproxy', port, servers });
    const { primaryUrl, sentinels } = data;
    return new Installation(
      ...([processes, urls, at(primaryUrl), at(data.replicaUrl), sentinels] as const),
      ...([pooler, balancer, apis] as const),
    );
  }

  get url(): string {
    return this.balancer.url;
  }

  startWorker(smtpUrl: string): void {
    const workerUrl = through(this.pooler.address, this.urls.workerUrl);
    const listenUrl = new URL(workerUrl);
    listenUrl.pathname = `/${sessionName(database)}`;
    const asIs = { ...this.urls, workerUrl, adminUrl: '', drop: () => Promise.resolve() };
    this.workers.push(
      startWorker({ url: this.url, database: asIs }, 'spread', {
        DATABASE_POOLED: '1',
        DATABASE_LISTEN_URL: listenUrl.href,
        REDIS_URL: 'redis://by-sentinels',
        REDIS_SENTINELS: this.sentinels.join(','),
        SMTP_URL: smtpUrl,
        MAIL_PER_MINUTE: '0',
        HAND_AGAIN_SECONDS: '15',
        LOG_LEVEL: 'silent',
      }),
    );
  }

  async killWorker(): Promise<void> {
    const worker = this.workers.shift();
    if (worker) await stop(worker, 'SIGKILL');
  }

  killApi(name: ApiName): Promise<void> {
    return this.processes.end(name, 'SIGKILL');
  }

  startApi(name: ApiName): Promise<void> {
    return startApi(this.processes, name, this.apis[name]);
  }

  /** As an upgrade goes: no new requests, then a stop that finishes what has begun, then the new one. */
  async replaceApi(name: ApiName): Promise<void> {
    await this.balancer.state(name, 'drain');
    await this.processes.end(name, 'SIGTERM');
    await startApi(this.processes, name, this.apis[name]);
    await this.balancer.state(name, 'ready');
  }

  restartPooler(): Promise<void> {
    return this.pooler.restart();
  }

  killRedis(): Promise<void> {
    return this.processes.end('redis-1', 'SIGKILL');
  }

  killPrimary(): Promise<void> {
    return this.processes.end('postgres', 'SIGKILL');
  }

  /** Makes the replica the primary, and the way to the primary lead there. */
  async promoteReplica(): Promise<void> {
    await ask(this.replicaUrl, 'SELECT pg_promote()');
    this.pooler.pointTo(Number(new URL(this.replicaUrl).port));
  }

  async stopWorkers(): Promise<void> {
    await Promise.all(this.workers.map((worker) => stop(worker)));
  }
}

export async function ask<Row>(adminUrl: string, sql: string, values: unknown[] = []): Promise<Row[]> {
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  try {
    return (await admin.query(sql, values)).rows as Row[];
  } finally {
    await admin.end();
  }
}

/** The same secrets for both, at ports of their own, known by the balancer's address. */
async function apiEnvironments(urls: { databaseUrl: string; replicaUrl: string }) {
  const unused = { ownerUrl: '', workerUrl: '', adminUrl: '', drop: () => Promise.resolve() };
  const shared = {
    ...(await apiEnvironment({ ...unused, apiUrl: urls.databaseUrl })),
    PATH: process.env['PATH'],
    DATABASE_POOLED: '1',
    DATABASE_REPLICA_URL: urls.replicaUrl,
    TRUSTED_PROXIES: '127.0.0.1',
    TEST_CLOCK: '1',
    LOG_LEVEL: 'error',
  };
  return {
    'api-1': { ...shared, API_PORT: String(await freePort()) },
    'api-2': { ...shared, API_PORT: String(await freePort()) },
  };
}

async function startApi(processes: Processes, name: ApiName, env: NodeJS.ProcessEnv): Promise<void> {
  const running = processes.start(name, process.execPath, [bundleOf('api')], { env });
  await untilHealthy(running, answers(`http://127.0.0.1:${env['API_PORT'] ?? ''}/health/ready`));
}

function through(host: string, text: string): string {
  const url = new URL(text);
  url.host = host;
  return url.href;
}

function at(adminUrl: string): string {
  const url = new URL(adminUrl);
  url.pathname = `/${database}`;
  return url.href;
}
