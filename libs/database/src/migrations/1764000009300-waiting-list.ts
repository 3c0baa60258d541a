import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Who waits for which time, and the times that were offered to them. */
export class WaitingList1764000009300 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE slot_offers, slot_wishes, waiting_list_settings');
  }
}

const statements = [
  `CREATE TABLE waiting_list_settings (
     studio_id uuid NOT NULL CONSTRAINT waiting_list_settings_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     offer_minutes integer NOT NULL
       CONSTRAINT waiting_list_settings_offer_range CHECK (offer_minutes BETWEEN 10 AND 2880),
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT waiting_list_settings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT waiting_list_settings_once UNIQUE (studio_id)
   )`,
  ...tenantTable('waiting_list_settings'),

  `CREATE TABLE slot_wishes (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     service_id uuid NOT NULL,
     fitter_id uuid,
     site_id uuid,
     weekdays integer[] NOT NULL
       CONSTRAINT slot_wishes_weekdays_known CHECK (weekdays <@ ARRAY[1, 2, 3, 4, 5, 6, 7] AND weekdays <> '{}'),
     times jsonb NOT NULL,
     first_day date NOT NULL,
     last_day date NOT NULL,
     state text NOT NULL DEFAULT 'waiting'
       CONSTRAINT slot_wishes_state_known
         CHECK (state IN ('waiting', 'offered', 'booked', 'unanswered', 'run_out', 'withdrawn')),
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT slot_wishes_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT slot_wishes_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT slot_wishes_service_id_fkey FOREIGN KEY (studio_id, service_id) REFERENCES services,
     CONSTRAINT slot_wishes_fitter_id_fkey FOREIGN KEY (studio_id, fitter_id) REFERENCES users,
     CONSTRAINT slot_wishes_site_id_fkey FOREIGN KEY (studio_id, site_id) REFERENCES sites,
     CONSTRAINT slot_wishes_days_in_order CHECK (first_day <= last_day)
   )`,
  `CREATE INDEX slot_wishes_open ON slot_wishes (studio_id, id) WHERE state IN ('waiting', 'offered')`,
  `CREATE INDEX slot_wishes_client ON slot_wishes (studio_id, client_id)`,
  ...tenantTable('slot_wishes'),

  `CREATE TABLE slot_offers (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     wish_id uuid NOT NULL,
     appointment_id uuid NOT NULL,
     starts_at timestamptz NOT NULL,
     state text NOT NULL DEFAULT 'open'
       CONSTRAINT slot_offers_state_known CHECK (state IN ('open', 'accepted', 'declined', 'expired', 'withdrawn')),
     expires_at timestamptz NOT NULL,
     link_hash bytea NOT NULL,
     answered_at timestamptz,
     answered_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT slot_offers_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT slot_offers_wish_id_fkey FOREIGN KEY (studio_id, wish_id) REFERENCES slot_wishes,
     CONSTRAINT slot_offers_appointment_id_fkey FOREIGN KEY (studio_id, appointment_id) REFERENCES appointments,
     CONSTRAINT slot_offers_answered_by_fkey FOREIGN KEY (studio_id, answered_by) REFERENCES users,
     CONSTRAINT slot_offers_answer_whole CHECK ((state IN ('accepted', 'declined')) = (answered_at IS NOT NULL))
   )`,
  `CREATE UNIQUE INDEX slot_offers_one_open ON slot_offers (studio_id, wish_id) WHERE state = 'open'`,
  `CREATE INDEX slot_offers_wish ON slot_offers (studio_id, wish_id, id)`,
  ...tenantTable('slot_offers'),
];
