import { dataOf, type StudioClient } from '@studio/api-client';
import { randomBytes, randomUUID } from 'node:crypto';
import { rmSync } from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { dataFolder } from '../../scripts/services/paths.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { removePostgres } from '../../scripts/services/postgres-files.mjs';
import { startPostgres } from '../../scripts/services/postgres.mjs';
import { Processes } from '../../scripts/services/processes.mjs';
import { startRedis } from '../../scripts/services/redis.mjs';
import { databaseUrls, type DatabaseUrls } from '../../scripts/services/roles.mjs';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi } from '../helpers/studio.js';

export type Urls = DatabaseUrls & { adminUrl: string };

/** A server of the drills' own, that may be killed without anybody else noticing. */
export class OwnServer {
  private constructor(
    readonly url: string,
    private readonly processes: Processes,
    private readonly startAgain: () => Promise<string>,
    private readonly name: 'postgres' | 'redis',
  ) {}

  static async postgres(): Promise<OwnServer> {
    const processes = await folderOf('postgres');
    const [password, port] = [randomBytes(12).toString('hex'), await freePort()];
    const start = () => startPostgres(processes, { password, throwaway: true, port });
    return new OwnServer(await start(), processes, start, 'postgres');
  }

  /** What it holds is gone when it ends. */
  static async redis(drill: string): Promise<OwnServer> {
    const processes = await folderOf(`redis-${drill}`);
    const port = await freePort();
    const start = () => startRedis(processes, { throwaway: true, port });
    return new OwnServer(await start(), processes, start, 'redis');
  }

  /** Ends it by a signal; `start` brings it back at the same address. */
  async end(signal: NodeJS.Signals): Promise<void> {
    await this.processes.end(this.name, signal);
  }

  async start(): Promise<void> {
    await this.startAgain();
  }

  async remove(): Promise<void> {
    await this.processes.stopAll();
    if (this.name === 'postgres') removePostgres(this.processes.folder);
    rmSync(this.processes.folder, { recursive: true, force: true });
  }
}

async function folderOf(name: string): Promise<Processes> {
  const processes = new Processes(path.join(dataFolder('test'), 'faults', name));
  await processes.stopLeftovers();
  return processes;
}

/** Follow-ups of one studio that are due, made through the API; each drill gets a copy. */
export class DueFollowUps {
  private constructor(
    private readonly postgresUrl: string,
    private readonly passwords: Parameters<typeof databaseUrls>[0]['passwords'],
    /** One address a follow-up. */
    readonly addresses: readonly string[],
  ) {}

  static async make(postgres: OwnServer, count: number): Promise<DueFollowUps> {
    const secret = (): string => randomBytes(12).toString('hex');
    const passwords = { owner: secret(), api: secret(), worker: secret() };
    const processes = await folderOf('migrations');
    const urls = await migratedDatabase(processes, {
      ...{ adminUrl: postgres.url, database: 'due', passwords, testClock: true },
    });
    const adminUrl = at(postgres.url, 'due');
    const api = await startTestApi({}, { ...urls, adminUrl, drop: () => Promise.resolve() });
    const { owner } = await openTestStudio(api);
    const addresses = await signOffSessions(owner, count);
    await dataOf(owner.GET('/v1/queues'));
    await api.close();
    await untilDue(adminUrl);
    return new DueFollowUps(postgres.url, passwords, addresses);
  }

  async copy(database: string): Promise<Urls> {
    await withAdmin(this.postgresUrl, (admin) =>
      admin.query(`CREATE DATABASE ${database} TEMPLATE due OWNER fitting_owner`),
    );
    const { postgresUrl: adminUrl, passwords } = this;
    return { ...databaseUrls({ adminUrl, database, passwords }), adminUrl: at(adminUrl, database) };
  }
}

/** Signs sessions off that promise follow-ups, each of a client of its own; answers their addresses. */
export async function signOffSessions(owner: StudioClient, count: number): Promise<string[]> {
  const addresses = Array.from(
    { length: count },
    (_, n) => `${n}-${randomUUID().slice(0, 8)}@riders.example`,
  );
  const left = [...addresses];
  const signOff = async (): Promise<void> => {
    for (let address = left.pop(); address !== undefined; address = left.pop()) {
      const client = await takeOnClient(owner, address);
      await screen(owner, client.clientId);
      await signedSession(owner, client);
    }
  };
  await Promise.all([signOff(), signOff(), signOff()]);
  return addresses;
}

/** Moves the clock to just after the last session's first follow-up. */
export const untilDue = (adminUrl: string): Promise<void> =>
  withAdmin(adminUrl, (admin) =>
    admin.query(
      `INSERT INTO test_clock (ahead_by)
       SELECT max(first.due) - now() + interval '1 minute'
         FROM (SELECT min(due_at) AS due FROM follow_ups GROUP BY fit_session_id) AS first`,
    ),
  );

function at(adminUrl: string, database: string): string {
  const url = new URL(adminUrl);
  url.pathname = `/${database}`;
  return url.href;
}

async function withAdmin(url: string, work: (admin: pg.Client) => Promise<unknown>): Promise<void> {
  const admin = new pg.Client({ connectionString: url });
  await admin.connect();
  try {
    await work(admin);
  } finally {
    await admin.end();
  }
}
