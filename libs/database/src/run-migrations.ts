import { setTimeout as sleep } from 'node:timers/promises';
import type { DataSource } from 'typeorm';
import { createDataSource } from './data-source.js';
import { migrations } from './migrations/index.js';
import { postgresFailure, sqlState } from './postgres-errors.js';

/**
 * A migration that waits for a lock makes everybody wait who comes after it, so it does not wait long; and what holds a
 * lock is to be done soon. A migration that runs outside a transaction sets limits of its own.
 */
const limits = '-c lock_timeout=3s -c statement_timeout=60s';
/** In between whoever held the lock may have ended, and nobody waits. */
const waitsMs = [1_000, 2_000, 4_000, 8_000, 16_000];
/** The number says nothing. */
const advisoryLock = 7_061_183;
const lookAgainMs = 500;

/** The schema was made by migrations that this code does not have. */
export class UnknownMigrations extends Error {
  override readonly name = 'UnknownMigrations';
}

/**
 * Bring the database to the newest schema, as its owner. With `testClock` the API may move the clock; without it
 * that right is taken away again. Several who migrate at once come one after the other.
 *
 * @param options.upTo the migrations to run, by name; all there are when absent
 * @returns the names of those that ran
 * @throws UnknownMigrations
 */
export async function migrate(options: {
  ownerUrl: string;
  testClock: boolean;
  upTo?: readonly string[];
}): Promise<string[]> {
  const dataSource = createDataSource({
    ...{ url: options.ownerUrl, applicationName: 'studio-migrate', serverOptions: limits },
    // One holds the advisory lock.
    poolSize: 2,
    ...(options.upTo && { migrations: named(options.upTo) }),
  });
  await dataSource.initialize();
  try {
    return await alone(dataSource, async () => {
      const ran = await runPatiently(dataSource);
      await dataSource.query(
        options.testClock
          ? 'GRANT INSERT, UPDATE ON test_clock TO fitting_api'
          : 'REVOKE INSERT, UPDATE ON test_clock FROM fitting_api',
      );
      return ran;
    });
  } finally {
    await dataSource.destroy();
  }
}

/** Each in its own transaction: one that could not get its locks is rolled back and tried again; those before it stay. */
async function runPatiently(dataSource: DataSource): Promise<string[]> {
  const before = new Set(await namesOfRun(dataSource));
  for (let attempt = 0; ; attempt += 1) {
    try {
      await dataSource.runMigrations({ transaction: 'each' });
      return (await namesOfRun(dataSource)).filter((name) => !before.has(name));
    } catch (error) {
      const wait = waitsMs[attempt];
      if (wait === undefined || postgresFailure(error)?.code !== sqlState.lockNotAvailable) throw error;
      await sleep(wait);
    }
  }
}

async function namesOfRun(dataSource: DataSource): Promise<string[]> {
  const [{ exists }] = await dataSource.query<[{ exists: boolean }]>(
    `SELECT to_regclass('migrations') IS NOT NULL AS exists`,
  );
  if (!exists) return [];
  const rows = await dataSource.query<{ name: string }[]>('SELECT name FROM migrations ORDER BY id');
  return rows.map(({ name }) => name);
}

function named(names: readonly string[]): typeof migrations {
  const known = migrations.filter(({ name }) => names.includes(name));
  const unknown = names.filter((wanted) => !known.some(({ name }) => name === wanted));
  if (unknown.length > 0) throw new UnknownMigrations(unknown.join(', '));
  return known;
}

/**
 * Asked for again and again, not waited for: a query that waits holds a snapshot, which CREATE INDEX CONCURRENTLY in the
 * other run would wait for in turn.
 */
async function alone<T>(dataSource: DataSource, work: () => Promise<T>): Promise<T> {
  const runner = dataSource.createQueryRunner();
  try {
    for (;;) {
      const [{ mine }] = (await runner.query(`SELECT pg_try_advisory_lock(${advisoryLock}) AS mine`)) as [
        { mine: boolean },
      ];
      if (mine) break;
      await sleep(lookAgainMs);
    }
    return await work();
  } finally {
    // Ends the session's lock, whatever happened in it.
    await runner.query(`SELECT pg_advisory_unlock(${advisoryLock})`).catch(() => undefined);
    await runner.release();
  }
}
