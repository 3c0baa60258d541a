/** How a queue's orders are carried out; a job may differ in some of it. */
export interface QueueRules {
  /** Orders that one worker process carries out at once. */
  readonly concurrency: number;
  /**
   * Orders of one studio and one job that may be handed over and unfinished at once. The others wait in PostgreSQL, so
   * however many there are, another studio's order waits for this many of them at most.
   */
  readonly share: number;
  /** Tries before an order is given up and kept for a person to look at. */
  readonly attempts: number;
  /** First wait between tries in milliseconds; it doubles each time, up to an hour, with jitter. */
  readonly backoffMs: number;
  /** A try that takes longer is told to stop, and counts as failed. */
  readonly limitMs: number;
  /** An order still undone so long after it was due is late. */
  readonly lateAfterSeconds: number;
}

const minute = 60_000;

/** Every queue there is. Attempts and limits are house rules: 24 tries with a wait of two seconds at first take half a day. */
export const queues = {
  mail: {
    concurrency: 10,
    share: 60,
    attempts: 24,
    backoffMs: 2_000,
    limitMs: 60_000,
    lateAfterSeconds: 120,
  },
  'follow-ups': {
    concurrency: 5,
    share: 30,
    attempts: 12,
    backoffMs: 2_000,
    limitMs: 30_000,
    lateAfterSeconds: 300,
  },
  summaries: {
    concurrency: 2,
    share: 20,
    attempts: 5,
    backoffMs: 1_000,
    limitMs: 30_000,
    lateAfterSeconds: 300,
  },
  documents: {
    concurrency: 2,
    share: 10,
    attempts: 6,
    backoffMs: 2_000,
    limitMs: 2 * minute,
    lateAfterSeconds: 300,
  },
  exports: {
    concurrency: 1,
    share: 2,
    attempts: 4,
    backoffMs: 10_000,
    limitMs: 10 * minute,
    lateAfterSeconds: 1_800,
  },
  imports: {
    concurrency: 2,
    share: 10,
    attempts: 4,
    backoffMs: 5_000,
    limitMs: 10 * minute,
    lateAfterSeconds: 1_800,
  },
  webhooks: {
    concurrency: 10,
    share: 20,
    attempts: 40,
    backoffMs: 5_000,
    limitMs: 20_000,
    lateAfterSeconds: 120,
  },
  upkeep: {
    concurrency: 1,
    share: 1,
    attempts: 5,
    backoffMs: 10_000,
    limitMs: 2 * minute,
    lateAfterSeconds: 3_600,
  },
} as const satisfies Record<string, QueueRules>;

export type QueueName = keyof typeof queues;
export const queueNames = Object.keys(queues) as QueueName[];
