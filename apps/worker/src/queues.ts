import { jobs } from '@studio/job-contracts';
import { Queue, type ConnectionOptions } from 'bullmq';
import type { DueRow } from './outbox-relay/outbox.queries.js';

export const queueNames = [...new Set(Object.values(jobs).map(({ queue }) => queue))];

/** The queues as the relay sees them: somewhere to put orders. */
export class Queues {
  private readonly queues: ReadonlyMap<string, Queue>;

  constructor(connection: ConnectionOptions, prefix: string) {
    this.queues = new Map(queueNames.map((name) => [name, new Queue(name, { connection, prefix })]));
    // ioredis reports a lost connection here and reconnects by itself.
    for (const queue of this.queues.values()) queue.on('error', () => undefined);
  }

  async add(rows: readonly DueRow[]): Promise<void> {
    for (const [name, queue] of this.queues) {
      const mine = rows.filter(({ job }) => jobs[job].queue === name);
      if (mine.length > 0) await queue.addBulk(mine.map(toJob));
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

/** The outbox id is the job's id, so a row handed over twice is one job. PostgreSQL keeps what became of it. */
function toJob({ studioId, outboxId, job, payload }: DueRow): Parameters<Queue['addBulk']>[0][number] {
  const { attempts, backoffMs } = jobs[job];
  return {
    name: job,
    data: { studioId, outboxId, payload },
    opts: {
      jobId: outboxId,
      attempts,
      backoff: { type: 'exponential', delay: backoffMs, jitter: 0.5 },
      removeOnComplete: true,
      removeOnFail: true,
    },
  };
}
