import type { SqlRunner } from '@studio/database';
import { jobs } from '@studio/job-contracts';
import { collectDefaultMetrics, Counter, Gauge, Histogram, Registry } from 'prom-client';
import { countBacklog } from './metrics.queries.js';

/** What became of one try of an order. */
export type Outcome = 'done' | 'put_off' | 'gave_up' | 'not_yet' | 'handed_back';

/** What this worker did, and what there is to do, for Prometheus: by job, never by studio or person. */
export class Metrics {
  readonly registry = new Registry();
  private readonly seconds = new Histogram({
    name: 'studio_order_try_seconds',
    help: 'How long one try of an order took, by what became of it.',
    labelNames: ['job', 'outcome'] as const,
    buckets: [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 30, 60, 300, 600],
    registers: [this.registry],
  });
  private readonly handedOver = new Counter({
    name: 'studio_orders_handed_over_total',
    help: 'Orders that this worker’s relay handed to the queues.',
    labelNames: ['job'] as const,
    registers: [this.registry],
  });

  constructor(sql: SqlRunner) {
    collectDefaultMetrics({ register: this.registry });
    const labelNames = ['job'] as const;
    const registers = [this.registry];
    const due = new Gauge({
      ...{ name: 'studio_orders_due', help: 'Orders that are due and not done.', labelNames, registers },
      collect: async () => {
        const backlog = new Map((await countBacklog(sql)).map((one) => [one.job, one]));
        for (const job of Object.keys(jobs)) {
          const now = backlog.get(job);
          due.set({ job }, now?.due ?? 0);
          oldest.set({ job }, now?.oldest ?? 0);
          failed.set({ job }, now?.failed ?? 0);
        }
      },
    });
    const oldest = new Gauge({
      name: 'studio_orders_oldest_due_seconds',
      help: 'Since when the oldest of them is due.',
      labelNames,
      registers,
    });
    const failed = new Gauge({
      name: 'studio_orders_failed',
      help: 'Orders whose tries are used up, for a person to look at.',
      labelNames,
      registers,
    });
  }

  tried(job: string, outcome: Outcome, seconds: number): void {
    this.seconds.observe({ job, outcome }, seconds);
  }

  handed(orders: readonly { readonly job: string }[]): void {
    for (const { job } of orders) this.handedOver.inc({ job });
  }
}
