import {
  orderJob,
  WebhookDelivery,
  WebhookEndpoint,
  type DeliveryState,
  type SqlRunner,
  whenGiven,
} from '@studio/database';
import type { WebhookEventType } from '@studio/job-contracts';
import type { EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export type EndpointFields = Partial<Pick<WebhookEndpoint, 'url' | 'events' | 'description'>>;

/** Those of one studio, one after another: two that are added at once cannot both be the last allowed. */
export async function countEndpoints(tx: EntityManager, studioId: string): Promise<number> {
  await tx.query(`SELECT pg_advisory_xact_lock(hashtextextended('webhook_endpoints/' || $1, 0))`, [studioId]);
  return tx.countBy(WebhookEndpoint, { studioId });
}

export async function insertEndpoint(
  tx: EntityManager,
  row: EndpointFields & { studioId: string; createdBy: string },
): Promise<string> {
  const { identifiers } = await tx.insert(WebhookEndpoint, row);
  return (identifiers[0] as { id: string }).id;
}

export function findEndpoint(tx: EntityManager, key: Key): Promise<WebhookEndpoint | null> {
  return tx.findOneBy(WebhookEndpoint, key);
}

export function listEndpoints(tx: EntityManager, studioId: string): Promise<WebhookEndpoint[]> {
  return tx.find(WebhookEndpoint, { where: { studioId }, order: { id: 'ASC' } });
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateEndpoint(
  tx: EntityManager,
  key: Key & { version: number },
  fields: EndpointFields,
  enabled: boolean | undefined,
): Promise<boolean> {
  const { affected } = await tx.update(WebhookEndpoint, key, {
    ...fields,
    ...(enabled === true && { disabledAt: null, disabledBecause: null, failingSince: null }),
    ...(enabled === false && {
      disabledAt: () => 'coalesce(disabled_at, app_now())',
      disabledBecause: () => `coalesce(disabled_because, 'owner')`,
    }),
    version: key.version + 1,
  });
  return affected === 1;
}

export async function renewSecret(tx: EntityManager, key: Key & { version: number }): Promise<boolean> {
  const { affected } = await tx.update(WebhookEndpoint, key, {
    secretNumber: () => 'secret_number + 1',
    secretRenewedAt: () => 'app_now()',
    version: key.version + 1,
  });
  return affected === 1;
}

export interface DeliveryRecord {
  id: string;
  eventId: string;
  type: WebhookEventType;
  subjectId: string;
  state: DeliveryState;
  occurredAt: Date;
  attempts: number;
  lastTriedAt: Date | null;
  lastStatus: number | null;
  lastTookMs: number | null;
  lastError: string | null;
  deliveredAt: Date | null;
}

/** Newest first. */
export function listDeliveries(
  sql: SqlRunner,
  of: {
    studioId: string;
    endpointId: string;
    state: DeliveryState | null;
    after: string | null;
    limit: number;
  },
): Promise<DeliveryRecord[]> {
  return sql.query(
    `SELECT d.id, d.event_id AS "eventId", e.type, e.subject_id AS "subjectId", d.state,
            e.created_at AS "occurredAt", d.attempts, d.last_tried_at AS "lastTriedAt",
            d.last_status AS "lastStatus", d.last_took_ms AS "lastTookMs", d.last_error AS "lastError",
            d.delivered_at AS "deliveredAt"
       FROM webhook_deliveries d
       JOIN webhook_events e ON e.studio_id = d.studio_id AND e.id = d.event_id
      WHERE d.studio_id = $1 AND d.endpoint_id = $2
        AND ${whenGiven(of.state, '$3::text', 'd.state = $3')} AND ${whenGiven(of.after, '$4::uuid', 'd.id < $4')}
      ORDER BY d.id DESC LIMIT $5`,
    [of.studioId, of.endpointId, of.state, of.after, of.limit],
  );
}

export function findDeliveryForUpdate(tx: EntityManager, key: Key): Promise<WebhookDelivery | null> {
  return tx.findOne(WebhookDelivery, { where: key, lock: { mode: 'pessimistic_write' } });
}

export async function deliverAgain(tx: EntityManager, key: Key): Promise<void> {
  await tx.update(WebhookDelivery, key, { state: 'waiting', deliveredAt: null });
  await orderJob(tx, { studioId: key.studioId, job: 'deliver-webhook', payload: { deliveryId: key.id } });
}
