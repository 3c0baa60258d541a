import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** What a service needs, costs and brings; sites and benches; skills; keys for creates that may be repeated. */
export class Catalogue1764000005000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE idempotency_keys, benches');
    await runner.query('ALTER TABLE rooms DROP COLUMN site_id, DROP COLUMN equipment, DROP COLUMN version');
    await runner.query('DROP TABLE sites');
    await runner.query('ALTER TABLE users DROP COLUMN skills, DROP COLUMN version');
    await runner.query(
      `ALTER TABLE services DROP COLUMN buffer_before_minutes, DROP COLUMN buffer_after_minutes,
         DROP COLUMN curing_minutes, DROP COLUMN required_skills, DROP COLUMN required_equipment,
         DROP COLUMN prerequisites, DROP COLUMN price_minor, DROP COLUMN currency, DROP COLUMN tax_rate_percent,
         DROP COLUMN tax_included, DROP COLUMN online_bookable, DROP COLUMN follow_ups_included,
         DROP COLUMN lead_time_minutes, DROP COLUMN horizon_days, DROP COLUMN retired_at, DROP COLUMN version`,
    );
  }
}

const minutes = (column: string, most: number): string =>
  `ADD ${column} integer NOT NULL DEFAULT 0
     CONSTRAINT services_${column}_range CHECK (${column} BETWEEN 0 AND ${most})`;

const statements = [
  `ALTER TABLE services
     ${minutes('buffer_before_minutes', 240)},
     ${minutes('buffer_after_minutes', 240)},
     ${minutes('curing_minutes', 20_160)},
     ADD required_skills text[] NOT NULL DEFAULT '{}',
     ADD required_equipment text[] NOT NULL DEFAULT '{}',
     ADD prerequisites text[] NOT NULL DEFAULT '{}'
       CONSTRAINT services_prerequisites_known CHECK (prerequisites <@ ARRAY['intake', 'clearance']),
     ADD price_minor bigint
       CONSTRAINT services_price_range CHECK (price_minor BETWEEN 0 AND 9007199254740991),
     ADD currency text CONSTRAINT services_currency_form CHECK (currency ~ '^[A-Z]{3}$'),
     ADD CONSTRAINT services_price_whole CHECK ((price_minor IS NULL) = (currency IS NULL)),
     ADD tax_rate_percent numeric(6, 3) NOT NULL DEFAULT 0
       CONSTRAINT services_tax_rate_range CHECK (tax_rate_percent BETWEEN 0 AND 100),
     ADD tax_included boolean NOT NULL DEFAULT true,
     ADD online_bookable boolean NOT NULL DEFAULT false,
     ADD follow_ups_included integer NOT NULL DEFAULT 0
       CONSTRAINT services_follow_ups_range CHECK (follow_ups_included BETWEEN 0 AND 20),
     ADD lead_time_minutes integer NOT NULL DEFAULT 0
       CONSTRAINT services_lead_time_range CHECK (lead_time_minutes BETWEEN 0 AND 129600),
     ADD horizon_days integer CONSTRAINT services_horizon_range CHECK (horizon_days BETWEEN 1 AND 3650),
     ADD retired_at timestamptz,
     ADD version integer NOT NULL DEFAULT 1`,

  `ALTER TABLE users
     ADD skills text[] NOT NULL DEFAULT '{}',
     ADD version integer NOT NULL DEFAULT 1`,

  `CREATE TABLE sites (
     studio_id uuid NOT NULL CONSTRAINT sites_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     name text NOT NULL,
     time_zone text NOT NULL,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT sites_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT sites_name_once UNIQUE (studio_id, name)
   )`,
  ...tenantTable('sites'),

  `ALTER TABLE rooms
     ADD site_id uuid,
     ADD equipment text[] NOT NULL DEFAULT '{}',
     ADD version integer NOT NULL DEFAULT 1,
     ADD CONSTRAINT rooms_site_id_fkey FOREIGN KEY (studio_id, site_id) REFERENCES sites`,

  `CREATE TABLE benches (
     studio_id uuid NOT NULL CONSTRAINT benches_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     name text NOT NULL,
     site_id uuid,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT benches_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT benches_site_id_fkey FOREIGN KEY (studio_id, site_id) REFERENCES sites,
     CONSTRAINT benches_name_once UNIQUE (studio_id, name)
   )`,
  ...tenantTable('benches'),

  `CREATE TABLE idempotency_keys (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     user_id uuid NOT NULL,
     key text NOT NULL,
     request_hash bytea NOT NULL,
     answer jsonb,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT idempotency_keys_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT idempotency_keys_user_id_fkey FOREIGN KEY (studio_id, user_id) REFERENCES users,
     CONSTRAINT idempotency_keys_once UNIQUE (studio_id, user_id, key)
   )`,
  ...tenantTable('idempotency_keys', 'SELECT, INSERT, UPDATE, DELETE'),
];
