import type { DataSource, EntityManager } from 'typeorm';
import { once } from './once.js';
import { isRetryable } from './postgres-errors.js';
import type { SqlRunner } from './sql-runner.js';
import type { TenantContext } from './tenant-context.js';
import type { TenantReads } from './tenant-reads.js';
import { writeAtOnce, type Write } from './write-at-once.js';

const tries = 3;

/**
 * The only way to the tenant tables: a transaction with the studio set for row-level security. One per use case,
 * opened by services and jobs.
 */
export class TenantTransaction {
  constructor(
    private readonly dataSource: DataSource,
    private readonly reads: TenantReads,
  ) {}

  /**
   * Run `work` in a transaction of the context's studio. On a serialization failure or a deadlock the whole work
   * runs again in a new transaction, so it must have no effect but through `tx`.
   */
  async run<T>(ctx: Pick<TenantContext, 'studioId'>, work: (tx: EntityManager) => Promise<T>): Promise<T> {
    return againIfRetryable(() =>
      this.dataSource.transaction(async (tx) => {
        await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [ctx.studioId]);
        return work(tx);
      }),
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
    await againIfRetryable(() => writeAtOnce(this.dataSource, ctx.studioId, writes));
  }

  /** A read-only transaction of the studio in a single round trip per query: for hot reads and lists. */
  async read<T>(ctx: Pick<TenantContext, 'studioId'>, work: (sql: SqlRunner) => Promise<T>): Promise<T> {
    return this.reads.run(ctx.studioId, work);
  }
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
