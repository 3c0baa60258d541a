import { queueNames, rulesOf } from '@studio/job-contracts';
import { Queue, type ConnectionOptions } from 'bullmq';
import type { Order } from './order.js';
import type { DueRow } from './outbox-relay/outbox.queries.js';

/** An order on its way through Redis. */
export interface HandedOver extends Order {
  /** Tries that failed before this one. */
  readonly attempts: number;
  /** The trace it is part of, where traces are made. */
  readonly traceparent?: string;
}

/** The queues as the relay sees them: somewhere to put orders. */
export class Queues {
  private readonly queues: ReadonlyMap<string, Queue>;

  constructor(connection: ConnectionOptions, prefix: string) {
    // With Redis away an order fails at once; the relay holds its row locked meanwhile.
    const failing = { ...connection, enableOfflineQueue: false, maxRetriesPerRequest: 1 };
    this.queues = new Map(queueNames.map((name) => [name, new Queue(name, { connection: failing, prefix })]));
    // ioredis reports a lost connection here and reconnects by itself.
    for (const queue of this.queues.values()) queue.on('error', () => undefined);
  }

  async add(rows: readonly DueRow[]): Promise<void> {
    for (const [name, queue] of this.queues) {
      const mine = rows.filter(({ job }) => rulesOf(job).queue === name);
      if (mine.length > 0) await queue.addBulk(inTurns(mine).map(toJob));
    }
  }

  /** @throws when Redis does not answer */
  async ping(): Promise<void> {
    await Promise.all([...this.queues.values()].map((queue) => queue.count()));
  }

  async close(): Promise<void> {
    await Promise.all([...this.queues.values()].map((queue) => queue.close()));
  }
}

/** First one of every studio, then the second of every studio, and so on. */
export function inTurns<Row extends { studioId: string }>(rows: readonly Row[]): Row[] {
  const counts = new Map<string, number>();
  return rows
    .map((row) => {
      const turn = counts.get(row.studioId) ?? 0;
      counts.set(row.studioId, turn + 1);
      return { row, turn };
    })
    .sort((one, other) => one.turn - other.turn)
    .map(({ row }) => row);
}

/**
 * The outbox id is the job's id, so a row handed over twice is one job. Redis forgets it however it ends: PostgreSQL
 * counts the tries and keeps what became of it.
 */
function toJob({
  studioId,
  outboxId,
  job,
  payload,
  attempts,
  traceparent,
}: DueRow): Parameters<Queue['addBulk']>[0][number] {
  return {
    name: job,
    data: { studioId, outboxId, payload, attempts, ...(traceparent !== null && { traceparent }) },
    opts: { jobId: outboxId, removeOnComplete: true, removeOnFail: true },
  };
}
