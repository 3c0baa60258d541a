import { setTimeout as sleep } from 'node:timers/promises';
import { postgresFailure, sqlState } from './postgres-errors.js';
import type { SqlRunner } from './sql-runner.js';
import type { TenantReads } from './tenant-reads.js';

/** A replica usually lags by less; what it has not got by then is read from the primary. */
const looks = 10;
const betweenLooksMs = 10;
/** One that says nothing for so long is away, and left alone for a while. */
const answersWithinMs = 1_000;
const restMs = 5_000;

/**
 * Reads of one studio from a streaming replica that are never older than the same read from the primary would be: the
 * primary tells how far its log is, and the replica is read once it has replayed that much (docs/adr/0044). A replica
 * that lags, fails or has become a primary itself costs a detour to the primary, not an answer.
 */
export class ReplicaReads {
  private restUntil = 0;

  constructor(
    private readonly primary: TenantReads,
    private readonly replica: TenantReads | null,
  ) {}

  async run<T>(studioId: string, work: (sql: SqlRunner) => Promise<T>): Promise<T> {
    const { replica } = this;
    if (replica === null || Date.now() < this.restUntil) return this.primary.run(studioId, work);
    const position = await this.primary.run(studioId, logPosition);
    if (await this.hasReplayed(replica, studioId, position)) {
      try {
        return await replica.run(studioId, (sql) => work(telling(sql)));
      } catch (error) {
        if (!(error instanceof ReplicaFailed)) throw error;
      }
    }
    return this.primary.run(studioId, work);
  }

  async close(): Promise<void> {
    await this.replica?.close();
  }

  private async hasReplayed(replica: TenantReads, studioId: string, position: string): Promise<boolean> {
    try {
      for (let look = 1; ; look += 1) {
        const replayed = await within(
          answersWithinMs,
          replica.run(studioId, (sql) => replayedTo(sql, position)),
        );
        if (replayed || look === looks) return replayed;
        await sleep(betweenLooksMs);
      }
    } catch {
      this.restUntil = Date.now() + restMs;
      return false;
    }
  }
}

class ReplicaFailed extends Error {}

/** What took too long there would take as long at the primary. */
const telling = (sql: SqlRunner): SqlRunner => ({
  query: (text, values) =>
    sql.query<never>(text, values).catch((error: unknown) => {
      throw postgresFailure(error)?.code === sqlState.queryCanceled ? error : new ReplicaFailed();
    }),
});

/** Everything whose commit was answered is before it, unless `synchronous_commit` is off. */
async function logPosition(sql: SqlRunner): Promise<string> {
  const [{ position }] = await sql.query<[{ position: string }]>(
    'SELECT pg_current_wal_flush_lsn() AS position',
  );
  return position;
}

/** Never of a server that was promoted: its log goes another way from there. */
async function replayedTo(sql: SqlRunner, position: string): Promise<boolean> {
  const [{ replayed }] = await sql.query<[{ replayed: boolean }]>(
    'SELECT pg_is_in_recovery() AND pg_last_wal_replay_lsn() >= $1::pg_lsn AS replayed',
    [position],
  );
  return replayed;
}

async function within<T>(ms: number, work: Promise<T>): Promise<T> {
  const late = new AbortController();
  const refused = sleep(ms, undefined, { signal: late.signal }).then(() => {
    throw new Error(`not within ${ms} ms`);
  });
  // Whichever loses has nobody to tell.
  for (const promise of [work, refused]) promise.catch(() => undefined);
  try {
    return await Promise.race([work, refused]);
  } finally {
    late.abort();
  }
}
