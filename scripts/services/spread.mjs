import { randomBytes } from 'node:crypto';
import pg from 'pg';
import { findHaproxy } from './haproxy.mjs';
import { LaunchError } from './launch-error.mjs';
import { findPgbouncer, startPgbouncer } from './pgbouncer.mjs';
import { freePort } from './ports.mjs';
import { startReplica } from './postgres-replica.mjs';
import { startPostgres } from './postgres.mjs';
import { startRedis, startSentinels } from './redis.mjs';
import { step } from './step.mjs';

const redisPrimaryName = 'studio';

/** For two servers, two APIs and two workers, each with pools of its own. */
const connections = 'max_connections=300';

/** What a killed process has written stays with the system; only without power it would be lost. */
const noPowerCuts = 'fsync=off';

/** @throws {LaunchError} saying what to install */
export function requireSpreadPrograms() {
  const missing = [
    ...(findHaproxy() === null ? ['haproxy'] : []),
    ...(findPgbouncer() === null ? ['pgbouncer'] : []),
  ];
  if (missing.length === 0) return;
  throw new LaunchError(
    `Not here: ${missing.join(', ')}. On Debian: apt-get install --no-install-recommends ${missing.join(' ')}`,
  );
}

/**
 * The data's side of an installation on several machines, as real processes on 127.0.0.1: PostgreSQL with a streaming
 * replica that has every commit before it is answered, and Redis with a replica and three Sentinels.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @returns {Promise<{ primaryUrl: string, replicaUrl: string, redisUrl: string, sentinels: string[] }>} PostgreSQL's
 *   administrator's URLs; Redis' primary until a failover
 */
export async function startSpreadData(processes) {
  const primaryUrl = await step('starting PostgreSQL', () =>
    startPostgres(processes, {
      password: randomBytes(24).toString('hex'),
      throwaway: false,
      settings: [connections, noPowerCuts, 'wal_keep_size=512MB'],
    }),
  );
  const replicaUrl = await step('starting its replica', async () =>
    startReplica(processes, { primaryUrl, port: await freePort(), settings: [connections, noPowerCuts] }),
  );
  await answeredOnceCopied(primaryUrl);
  return step('starting Redis, its replica and three Sentinels', async () => {
    const redisUrl = await startRedis(processes, { throwaway: false, name: 'redis-1' });
    await startRedis(processes, { throwaway: false, name: 'redis-2', replicaOf: redisUrl });
    const watched = { primaryUrl: redisUrl, primaryName: redisPrimaryName, count: 3 };
    return { primaryUrl, replicaUrl, redisUrl, sentinels: await startSentinels(processes, watched) };
  });
}

/**
 * From now on a commit is answered once the replica has it in its log (`synchronous_commit` is `on` by itself). Not before
 * there is a replica: no commit would be answered.
 *
 * @param {string} primaryUrl
 */
async function answeredOnceCopied(primaryUrl) {
  const admin = new pg.Client({ connectionString: primaryUrl });
  await admin.connect();
  try {
    await admin.query(`ALTER SYSTEM SET synchronous_standby_names = 'ANY 1 (*)'`);
    await admin.query('SELECT pg_reload_conf()');
  } finally {
    await admin.end();
  }
}

/**
 * PgBouncer before the primary.
 *
 * @param {import('./processes.mjs').Processes} processes
 * @param {{ primaryUrl: string, passwords: import('./roles.mjs').Passwords, database: string }} options
 *   `database`: the one that has a second name for sessions
 */
export async function startPooler(processes, { primaryUrl, passwords, database }) {
  const probe = new URL(primaryUrl);
  const postgresPort = Number(probe.port);
  const port = await freePort();
  Object.assign(probe, {
    ...{ port: String(port), username: 'fitting_api', password: passwords.api },
    pathname: `/${database}`,
  });
  return step('starting PgBouncer', () =>
    startPgbouncer(processes, {
      ...{ port, postgresPort, probe: probe.href },
      users: { fitting_api: passwords.api, fitting_worker: passwords.worker },
    }),
  );
}
