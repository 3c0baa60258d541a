import { orderJob, type TenantTransaction } from '@studio/database';
import type { Logger } from 'pino';
import type { DataSource } from 'typeorm';
import type { Schedule } from '../schedules.js';
import { claimScheduling, listStudioIds, takeTurns } from './schedule.queries.js';

const lookEveryMs = 10_000;

/**
 * Orders the repeating jobs. What turn a studio had last is a row of its own, so a turn is taken once whatever Redis
 * forgets and however many workers run; of those, one at a time goes through the studios.
 */
export class Scheduler {
  private timer: NodeJS.Timeout | undefined;
  private round: Promise<void> | undefined;
  private stopping = false;

  constructor(
    private readonly dataSource: DataSource,
    private readonly transaction: TenantTransaction,
    private readonly log: Logger,
    private readonly schedules: readonly Schedule[],
  ) {}

  start(): void {
    const look = (): void => {
      this.round ??= this.runRound()
        .catch((error: unknown) => {
          // PostgreSQL is away; the next look tries again.
          this.log.warn({ reason: error instanceof Error ? error.name : typeof error }, 'scheduling failed');
        })
        .finally(() => {
          this.round = undefined;
        });
    };
    this.timer = setInterval(look, lookEveryMs);
    look();
  }

  async stop(): Promise<void> {
    this.stopping = true;
    clearInterval(this.timer);
    await this.round;
  }

  /** One look at every studio. */
  async runRound(): Promise<void> {
    await this.dataSource.transaction(async (claim) => {
      if (!(await claimScheduling(claim))) return;
      for (const studioId of await listStudioIds(claim)) {
        if (this.stopping) return;
        await this.orderFor(studioId);
      }
    });
  }

  private async orderFor(studioId: string): Promise<void> {
    await this.transaction.run({ studioId }, async (tx) => {
      const taken = await takeTurns(tx, studioId, this.schedules);
      for (const { name, job } of this.schedules) {
        if (taken.includes(name)) await orderJob(tx, { studioId, job, payload: {} });
      }
    });
  }
}
