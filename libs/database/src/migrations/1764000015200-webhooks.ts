import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Endpoints of API clients, what they are told of, and how the telling went. */
export class Webhooks1764000015200 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE webhook_deliveries, webhook_events, webhook_endpoints');
  }
}

const statements = [
  `CREATE TABLE webhook_endpoints (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     url text NOT NULL,
     description text,
     events text[] NOT NULL CONSTRAINT webhook_endpoints_events_some CHECK (events <> '{}'),
     secret_number integer NOT NULL DEFAULT 1,
     secret_renewed_at timestamptz,
     failing_since timestamptz,
     disabled_at timestamptz,
     disabled_because text
       CONSTRAINT webhook_endpoints_because_known CHECK (disabled_because IN ('owner', 'failing', 'gone')),
     version integer NOT NULL DEFAULT 1,
     created_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT webhook_endpoints_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT webhook_endpoints_created_by_fkey FOREIGN KEY (studio_id, created_by) REFERENCES users,
     CONSTRAINT webhook_endpoints_disabled_whole CHECK ((disabled_at IS NULL) = (disabled_because IS NULL))
   )`,
  ...tenantTable('webhook_endpoints'),

  `CREATE TABLE webhook_events (
     studio_id uuid NOT NULL CONSTRAINT webhook_events_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     type text NOT NULL,
     subject_id uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT webhook_events_pkey PRIMARY KEY (studio_id, id)
   )`,
  ...tenantTable('webhook_events', 'SELECT, INSERT'),

  `CREATE TABLE webhook_deliveries (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     endpoint_id uuid NOT NULL,
     event_id uuid NOT NULL,
     state text NOT NULL DEFAULT 'waiting'
       CONSTRAINT webhook_deliveries_state_known CHECK (state IN ('waiting', 'delivered', 'failed')),
     attempts integer NOT NULL DEFAULT 0,
     last_tried_at timestamptz,
     last_status integer,
     last_took_ms integer,
     last_error text,
     delivered_at timestamptz,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT webhook_deliveries_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT webhook_deliveries_endpoint_id_fkey FOREIGN KEY (studio_id, endpoint_id) REFERENCES webhook_endpoints,
     CONSTRAINT webhook_deliveries_event_id_fkey FOREIGN KEY (studio_id, event_id) REFERENCES webhook_events,
     CONSTRAINT webhook_deliveries_once UNIQUE (studio_id, event_id, endpoint_id)
   )`,
  `CREATE INDEX webhook_deliveries_endpoint ON webhook_deliveries (studio_id, endpoint_id, id)`,
  ...tenantTable('webhook_deliveries'),
];
