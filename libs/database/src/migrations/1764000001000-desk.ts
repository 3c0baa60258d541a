import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Clients and their consents, the catalogue, appointments. */
export class Desk1764000001000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE appointments, rooms, services, client_consents, clients');
  }
}

const statements = [
  `CREATE TABLE clients (
     studio_id uuid NOT NULL CONSTRAINT clients_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     given_name text NOT NULL,
     family_name text NOT NULL,
     email text,
     phone text,
     born_on date,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT clients_pkey PRIMARY KEY (studio_id, id)
   )`,
  `CREATE INDEX clients_name ON clients (studio_id, lower(family_name), lower(given_name))`,
  ...tenantTable('clients'),

  `CREATE TABLE client_consents (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     kind text NOT NULL CONSTRAINT client_consents_kind_known CHECK (kind IN ('data', 'health_data', 'contact')),
     text_version text NOT NULL,
     given_at timestamptz NOT NULL DEFAULT app_now(),
     taken_by uuid NOT NULL,
     withdrawn_at timestamptz,
     withdrawal_recorded_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT client_consents_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT client_consents_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT client_consents_taken_by_fkey FOREIGN KEY (studio_id, taken_by) REFERENCES users,
     CONSTRAINT client_consents_withdrawal_recorded_by_fkey
       FOREIGN KEY (studio_id, withdrawal_recorded_by) REFERENCES users,
     CONSTRAINT client_consents_withdrawal_whole
       CHECK ((withdrawn_at IS NULL) = (withdrawal_recorded_by IS NULL))
   )`,
  `CREATE UNIQUE INDEX client_consents_one_standing ON client_consents (studio_id, client_id, kind)
     WHERE withdrawn_at IS NULL`,
  ...tenantTable('client_consents'),

  `CREATE TABLE services (
     studio_id uuid NOT NULL CONSTRAINT services_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     name text NOT NULL,
     duration_minutes integer NOT NULL
       CONSTRAINT services_duration_range CHECK (duration_minutes BETWEEN 5 AND 600),
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT services_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT services_name_once UNIQUE (studio_id, name)
   )`,
  ...tenantTable('services'),

  `CREATE TABLE rooms (
     studio_id uuid NOT NULL CONSTRAINT rooms_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     name text NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT rooms_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT rooms_name_once UNIQUE (studio_id, name)
   )`,
  ...tenantTable('rooms'),

  `CREATE TABLE appointments (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     service_id uuid NOT NULL,
     fitter_id uuid NOT NULL,
     room_id uuid NOT NULL,
     during tstzrange NOT NULL
       CONSTRAINT appointments_during_bounded
         CHECK (NOT isempty(during) AND NOT lower_inf(during) AND NOT upper_inf(during)),
     state text NOT NULL DEFAULT 'booked'
       CONSTRAINT appointments_state_known CHECK (state IN ('booked', 'cancelled')),
     cancel_reason text,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT appointments_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT appointments_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT appointments_service_id_fkey FOREIGN KEY (studio_id, service_id) REFERENCES services,
     CONSTRAINT appointments_fitter_id_fkey FOREIGN KEY (studio_id, fitter_id) REFERENCES users,
     CONSTRAINT appointments_room_id_fkey FOREIGN KEY (studio_id, room_id) REFERENCES rooms,
     CONSTRAINT appointments_fitter_free
       EXCLUDE USING gist (studio_id WITH =, fitter_id WITH =, during WITH &&) WHERE (state <> 'cancelled'),
     CONSTRAINT appointments_room_free
       EXCLUDE USING gist (studio_id WITH =, room_id WITH =, during WITH &&) WHERE (state <> 'cancelled')
   )`,
  `CREATE INDEX appointments_client ON appointments (studio_id, client_id)`,
  `CREATE INDEX appointments_start ON appointments (studio_id, lower(during))`,
  ...tenantTable('appointments'),
];
