import type { DeliveryState, SqlRunner } from '@studio/database';
import type { WebhookEventType } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  deliveryId: string;
}

export interface DeliveryToMake {
  state: DeliveryState;
  endpointId: string;
  url: string;
  secretNumber: number;
  /** The secret before this one signs too. */
  secretIsNew: boolean;
  disabled: boolean;
  eventId: string;
  type: WebhookEventType;
  subjectId: string;
  occurredAt: Date;
  /** Real time by the database's clock, in seconds: the receiver compares it with its own. */
  timestamp: number;
}

export async function findDelivery(
  sql: SqlRunner,
  { studioId, deliveryId }: Key,
  options: { oldSecretForHours: number },
): Promise<DeliveryToMake | null> {
  const rows = await sql.query<DeliveryToMake[]>(
    `SELECT d.state, d.endpoint_id AS "endpointId", p.url, p.secret_number AS "secretNumber",
            coalesce(p.secret_renewed_at > app_now() - make_interval(hours => $3), false) AS "secretIsNew",
            p.disabled_at IS NOT NULL AS disabled, e.id AS "eventId", e.type, e.subject_id AS "subjectId",
            e.created_at AS "occurredAt", extract(epoch FROM now())::integer AS timestamp
       FROM webhook_deliveries d
       JOIN webhook_endpoints p ON p.studio_id = d.studio_id AND p.id = d.endpoint_id
       JOIN webhook_events e ON e.studio_id = d.studio_id AND e.id = d.event_id
      WHERE d.studio_id = $1 AND d.id = $2`,
    [studioId, deliveryId, options.oldSecretForHours],
  );
  return rows[0] ?? null;
}

export interface Attempt {
  /** Null when there was no answer. */
  status: number | null;
  tookMs: number;
  error: string | null;
}

export async function recordAttempt(
  tx: EntityManager,
  { studioId, deliveryId }: Key,
  attempt: Attempt,
): Promise<void> {
  await tx.query(
    `UPDATE webhook_deliveries
        SET attempts = attempts + 1, last_tried_at = app_now(), last_status = $3, last_took_ms = $4, last_error = $5,
            state = CASE WHEN $5::text IS NULL THEN 'delivered' ELSE state END,
            delivered_at = CASE WHEN $5::text IS NULL THEN app_now() END
      WHERE studio_id = $1 AND id = $2`,
    [studioId, deliveryId, attempt.status, attempt.tookMs, attempt.error],
  );
}

export async function markFailed(
  tx: EntityManager,
  { studioId, deliveryId }: Key,
  error: string,
): Promise<void> {
  await tx.query(
    `UPDATE webhook_deliveries SET state = 'failed', last_error = coalesce(last_error, $3)
      WHERE studio_id = $1 AND id = $2 AND state = 'waiting'`,
    [studioId, deliveryId, error],
  );
}

/** How an endpoint is doing, seen from one attempt. */
export async function markEndpoint(
  tx: EntityManager,
  key: { studioId: string; endpointId: string },
  delivered: boolean,
): Promise<void> {
  await tx.query(
    `UPDATE webhook_endpoints SET failing_since = CASE WHEN $3 THEN NULL ELSE coalesce(failing_since, app_now()) END
      WHERE studio_id = $1 AND id = $2 AND (failing_since IS NULL) <> $3`,
    [key.studioId, key.endpointId, delivered],
  );
}

/**
 * Disables an endpoint that says it is gone, or that has failed for so long; tells whether it did.
 */
export async function disableEndpoint(
  tx: EntityManager,
  key: { studioId: string; endpointId: string },
  { gone, failingForDays }: { gone: boolean; failingForDays: number },
): Promise<boolean> {
  const [, count] = await tx.query<[unknown, number]>(
    `UPDATE webhook_endpoints
        SET disabled_at = app_now(), disabled_because = CASE WHEN $3 THEN 'gone' ELSE 'failing' END,
            version = version + 1
      WHERE studio_id = $1 AND id = $2 AND disabled_at IS NULL
        AND ($3 OR failing_since < app_now() - make_interval(days => $4))`,
    [key.studioId, key.endpointId, gone, failingForDays],
  );
  return count === 1;
}
