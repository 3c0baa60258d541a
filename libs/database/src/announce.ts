import type { WebhookEventType } from '@studio/job-contracts';
import type { SqlRunner } from './sql-runner.js';

/**
 * Tell the studio's API clients of an event, as part of this transaction: one order for each endpoint that wants it.
 * Where none does, nothing is written.
 */
export async function announce(
  sql: SqlRunner,
  event: { studioId: string; type: WebhookEventType; subjectId: string },
): Promise<void> {
  await sql.query(
    `WITH wanting AS (
       SELECT id FROM webhook_endpoints WHERE studio_id = $1 AND disabled_at IS NULL AND $2 = ANY (events)),
     event AS (
       INSERT INTO webhook_events (studio_id, type, subject_id)
       SELECT $1, $2, $3 WHERE EXISTS (SELECT FROM wanting) RETURNING id),
     delivery AS (
       INSERT INTO webhook_deliveries (studio_id, endpoint_id, event_id)
       SELECT $1, wanting.id, event.id FROM wanting, event RETURNING id)
     INSERT INTO outbox (studio_id, job, payload)
     SELECT $1, 'deliver-webhook', jsonb_build_object('deliveryId', id) FROM delivery`,
    [event.studioId, event.type, event.subjectId],
  );
}
