import type { TenantTransaction } from '@studio/database';
import { queueNames, queues, waitBeforeRetryMs, type JobName, type QueueRules } from '@studio/job-contracts';
import { inSpan, noteOnSpan } from '@studio/tracing';
import { Worker, type ConnectionOptions, type Job } from 'bullmq';
import type { Logger } from 'pino';
import type { Metrics, Outcome } from './metrics/metrics.js';
import type { JobRegistry } from './job-registry.js';
import { GiveUp, NotYet, Stopping, TimeLimitReached, type JobHandler } from './order.js';
import { orderAttributes } from './outbox-relay/handing-over.js';
import { handBack, markGivenUp, putOff, comeAgain } from './outbox-relay/outbox.queries.js';
import type { HandedOver } from './queues.js';

/** Takes orders from the queues and has them carried out. What becomes of one is written to PostgreSQL. */
export class JobRunner {
  private workers: Worker<HandedOver>[] = [];
  private readonly running = new Set<AbortController>();

  constructor(
    private readonly registry: JobRegistry,
    private readonly transaction: TenantTransaction,
    private readonly log: Logger,
    private readonly metrics: Metrics,
    private readonly options: {
      connection: ConnectionOptions;
      prefix: string;
      rules: (job: JobName) => Pick<QueueRules, 'limitMs' | 'attempts' | 'backoffMs'>;
      /** Called when an order is off our hands, so that another of its studio may follow. */
      onSettled: () => void;
    },
  ) {}

  start(): void {
    const { connection, prefix } = this.options;
    this.workers = queueNames.map((name) => {
      const worker = new Worker<HandedOver>(name, (job) => this.carryOut(job), {
        ...{ connection, prefix },
        concurrency: queues[name].concurrency,
        // A worker that was killed leaves its job locked; another takes it after this long.
        lockDuration: 15_000,
        stalledInterval: 5_000,
        maxStalledCount: 1,
      });
      worker.on('error', () => undefined);
      // It took its worker down twice, or PostgreSQL was away when its outcome was to be written down.
      worker.on('failed', (job, error) => {
        if (job) void this.settle(job, error).catch(() => undefined);
      });
      return worker;
    });
  }

  /** Waits for what is being carried out; what is not done after `withinMs` is told to stop and handed back. */
  async stop(withinMs: number): Promise<void> {
    const timer = setTimeout(() => {
      for (const controller of this.running) controller.abort(new Stopping());
    }, withinMs);
    await Promise.all(this.workers.map((worker) => worker.close()));
    clearTimeout(timer);
  }

  private async carryOut(job: Job<HandedOver>): Promise<void> {
    const name = job.name as JobName;
    const { outboxId, traceparent } = job.data;
    const attributes = orderAttributes({ job: name, outboxId });
    await inSpan({ name: `process ${name}`, kind: 'consumer', attributes, parent: traceparent }, () =>
      this.tryOnce(job),
    );
    this.options.onSettled();
  }

  private async tryOnce(job: Job<HandedOver>): Promise<void> {
    try {
      await this.withinLimit(job);
      this.tell(job, 'done');
    } catch (error) {
      await this.settle(job, error);
    }
  }

  /** A handler that does not listen to its signal is no longer waited for. */
  private async withinLimit(job: Job<HandedOver>): Promise<void> {
    const { limitMs } = this.options.rules(job.name as JobName);
    const controller = new AbortController();
    this.running.add(controller);
    const timer = setTimeout(() => {
      controller.abort(new TimeLimitReached(limitMs));
    }, limitMs);
    try {
      await Promise.race([
        this.handlerOf(job).handle(job.data, controller.signal),
        new Promise<never>((_, reject) => {
          controller.signal.addEventListener('abort', () => {
            reject(controller.signal.reason as Error);
          });
        }),
      ]);
    } catch (error) {
      // What an interrupted handler throws tells less than why it was interrupted.
      throw controller.signal.aborted ? controller.signal.reason : error;
    } finally {
      clearTimeout(timer);
      this.running.delete(controller);
    }
  }

  private async settle(job: Job<HandedOver>, thrown: unknown): Promise<void> {
    const error = thrown instanceof Error ? thrown : new Error(typeof thrown);
    const { studioId, attempts } = job.data;
    const rules = this.options.rules(job.name as JobName);
    const failed = attempts + 1;
    const reason = error.message.slice(0, 500);
    const outcome = await this.transaction.run({ studioId }, async (tx): Promise<Outcome> => {
      if (error instanceof Stopping) {
        await handBack(tx, job.data);
        return 'handed_back';
      }
      if (error instanceof NotYet) {
        await comeAgain(tx, job.data, error.waitMs);
        return 'not_yet';
      }
      if (error instanceof GiveUp || failed >= rules.attempts) {
        if (await markGivenUp(tx, job.data, reason)) await this.handlerOf(job).gaveUp?.(tx, job.data, reason);
        return 'gave_up';
      }
      await putOff(tx, job.data, { waitMs: waitBeforeRetryMs(rules, failed), error: reason });
      return 'put_off';
    });
    this.tell(job, outcome, error);
  }

  private handlerOf(job: Job<HandedOver>): JobHandler<JobName> {
    return this.registry[job.name as JobName];
  }

  private tell(job: Job<HandedOver>, outcome: Outcome, error?: Error): void {
    const { outboxId, attempts } = job.data;
    this.metrics.tried(job.name, outcome, (Date.now() - (job.processedOn ?? Date.now())) / 1000);
    const told = { job: job.name, outboxId, failedBefore: attempts, ...(error && { reason: error.name }) };
    const failed = outcome === 'put_off' || outcome === 'gave_up';
    noteOnSpan({ 'studio.job.outcome': outcome }, failed ? error?.name : undefined);
    if (failed) this.log.warn(told, outcome);
    else this.log.info(told, outcome);
  }
}
