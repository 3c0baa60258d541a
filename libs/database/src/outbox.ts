import type { JobName, JobPayload } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';
import { OutboxRow } from './entities/outbox-row.js';
import type { Write } from './write-at-once.js';

/**
 * Order an effect outside PostgreSQL as part of this transaction. The relay hands it to the queue once
 * `availableAt` (default: now) has come; if the transaction rolls back it never was.
 */
export async function orderJob<Name extends JobName>(
  tx: EntityManager,
  order: { studioId: string; job: Name; payload: JobPayload<Name>; availableAt?: Date },
): Promise<void> {
  const { studioId, job, payload, availableAt } = order;
  await tx.insert(OutboxRow, { studioId, job, payload, ...(availableAt && { availableAt }) });
}

/** Mark an order as carried out, in the transaction that stores its effect. */
export async function finishOrder(
  tx: EntityManager,
  order: { studioId: string; outboxId: string },
): Promise<void> {
  const { text, values } = orderFinished(order);
  await tx.query(text, [...values]);
}

/** The same as one of several writes. */
export const orderFinished = ({ studioId, outboxId }: { studioId: string; outboxId: string }): Write => ({
  text: 'UPDATE outbox SET done_at = app_now() WHERE studio_id = $1 AND id = $2',
  values: [studioId, outboxId],
});
