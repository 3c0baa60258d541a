import type { TenantTransaction } from '@studio/database';
import type { JobName } from '@studio/job-contracts';
import { UnrecoverableError, Worker, type ConnectionOptions, type Job } from 'bullmq';
import type { Logger } from 'pino';
import type { JobRegistry } from './job-registry.js';
import { GiveUp, type JobHandler, type Order } from './order.js';
import { markGivenUp } from './outbox-relay/outbox.queries.js';
import { queueNames } from './queues.js';

const concurrency: Readonly<Record<(typeof queueNames)[number], number>> = { mail: 5, summaries: 2 };

/** Takes orders from the queues and has them carried out. */
export class JobRunner {
  private workers: Worker<Order>[] = [];

  constructor(
    private readonly registry: JobRegistry,
    private readonly transaction: TenantTransaction,
    private readonly log: Logger,
    private readonly options: { connection: ConnectionOptions; prefix: string },
  ) {}

  start(): void {
    this.workers = queueNames.map((name) => {
      const worker = new Worker<Order>(name, (job) => this.carryOut(job), {
        ...this.options,
        concurrency: concurrency[name],
        // A worker that was killed leaves its job locked; another takes it after this long.
        lockDuration: 15_000,
        stalledInterval: 5_000,
        maxStalledCount: 10,
      });
      worker.on('error', () => undefined);
      worker.on('failed', (job, error) => {
        if (job) void this.afterFailure(job, error);
      });
      return worker;
    });
  }

  /** Waits for what is being carried out. */
  async stop(): Promise<void> {
    await Promise.all(this.workers.map((worker) => worker.close()));
  }

  private async carryOut(job: Job<Order>): Promise<void> {
    const handler = this.registry[job.name as JobName] as JobHandler<JobName>;
    try {
      await handler.handle(job.data);
      this.log.info({ job: job.name, outboxId: job.data.outboxId }, 'done');
    } catch (error) {
      throw error instanceof GiveUp ? new UnrecoverableError(error.message) : error;
    }
  }

  private async afterFailure(job: Job<Order>, error: Error): Promise<void> {
    const { studioId, outboxId } = job.data;
    const final = error instanceof UnrecoverableError || job.attemptsMade >= (job.opts.attempts ?? 1);
    this.log.warn(
      { job: job.name, outboxId, attempt: job.attemptsMade, final, reason: error.name },
      'failed',
    );
    if (!final) return;
    await this.transaction
      .run({ studioId }, (tx) => markGivenUp(tx, { studioId, outboxId, error: error.message.slice(0, 500) }))
      // Not written down: the relay hands the row out again, and its tries begin anew.
      .catch(() => undefined);
  }
}
