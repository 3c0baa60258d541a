import { inSpan, traceparent, type SpanAbout } from '@studio/tracing';
import type { DataSource, EntityManager } from 'typeorm';
import { once } from './once.js';
import { isRetryable } from './postgres-errors.js';
import { ReplicaReads } from './replica-reads.js';
import { KeyRing } from './sealed-fields/key-ring.js';
import type { SqlRunner } from './sql-runner.js';
import type { StudioKeys } from './studio-keys.js';
import type { TenantContext } from './tenant-context.js';
import type { TenantReads } from './tenant-reads.js';
import { together } from './together.js';
import { writeAtOnce, type Write } from './write-at-once.js';

const tries = 3;

const transactionSpan: SpanAbout = { name: 'transaction', kind: 'internal' };

/**
 * The only way to the tenant tables: a transaction with the studio set for row-level security. One per use case,
 * opened by services and jobs.
 */
export class TenantTransaction {
  private readonly keyRing: KeyRing;

  constructor(
    private readonly dataSource: DataSource,
    private readonly reads: TenantReads,
    keys: StudioKeys,
    private readonly replicaReads = new ReplicaReads(reads, null),
  ) {
    this.keyRing = new KeyRing(dataSource, reads, keys);
  }

  /**
   * Run `work` in a transaction of the context's studio. On a serialization failure or a deadlock the whole work
   * runs again in a new transaction, so it must have no effect but through `tx`.
   */
  async run<T>(ctx: Pick<TenantContext, 'studioId'>, work: (tx: EntityManager) => Promise<T>): Promise<T> {
    return inSpan(transactionSpan, () =>
      againIfRetryable(() =>
        this.keyRing.within(ctx.studioId, () =>
          this.dataSource.transaction(async (tx) => {
            // Goes out with the first statement of the work, before it.
            const [, result] = await together([setStudio(tx, ctx.studioId), work(tx)]);
            return result;
          }),
        ),
      ),
    );
  }

  /**
   * Like `run`, for a create: a request repeated with the same Idempotency-Key gets its first answer again. The answer
   * must be plain JSON.
   *
   * @throws OnceKeyReused when the key belongs to another request
   */
  async runOnce<T extends object>(ctx: TenantContext, work: (tx: EntityManager) => Promise<T>): Promise<T> {
    return this.run(ctx, (tx) => once(tx, ctx, work));
  }

  /** Like `run`, for writes of which none needs the result of another: one message to the server and back for all. */
  async write(ctx: Pick<TenantContext, 'studioId'>, writes: readonly [...Write[], Write]): Promise<void> {
    await inSpan(transactionSpan, () =>
      againIfRetryable(() => writeAtOnce(this.dataSource, ctx.studioId, writes)),
    );
  }

  /** A read-only transaction of the studio in a single round trip per query: for hot reads and lists. */
  async read<T>(ctx: Pick<TenantContext, 'studioId'>, work: (sql: SqlRunner) => Promise<T>): Promise<T> {
    return this.keyRing.within(ctx.studioId, () => this.reads.run(ctx.studioId, work));
  }

  /** Like `read`, and never older, from the replica if there is one: for long reads, and those of machines. */
  async readFromReplica<T>(
    ctx: Pick<TenantContext, 'studioId'>,
    work: (sql: SqlRunner) => Promise<T>,
  ): Promise<T> {
    return this.keyRing.within(ctx.studioId, () => this.replicaReads.run(ctx.studioId, work));
  }
}

/** Orders written in the transaction keep the trace they are part of, if there is one: it is the column's default. */
async function setStudio(tx: EntityManager, studioId: string): Promise<void> {
  const trace = traceparent();
  const studio = `SELECT set_config('app.studio_id', $1, true)`;
  if (trace === undefined) await tx.query(studio, [studioId]);
  else await tx.query(`${studio}, set_config('app.traceparent', $2, true)`, [studioId, trace]);
}

async function againIfRetryable<T>(transaction: () => Promise<T>): Promise<T> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      return await transaction();
    } catch (error) {
      if (attempt === tries || !isRetryable(error)) throw error;
    }
  }
}
