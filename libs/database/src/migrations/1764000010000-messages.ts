import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Messages with their state, a studio's own wordings and settings, the pace per mail domain, addresses that bounce. */
export class Messages1764000010000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undo) await runner.query(statement);
  }
}

const statements = [
  `CREATE TABLE messages (
     studio_id uuid NOT NULL CONSTRAINT messages_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid,
     user_id uuid,
     template text NOT NULL,
     subject_id uuid,
     data jsonb NOT NULL DEFAULT '{}',
     channel text NOT NULL DEFAULT 'mail' CONSTRAINT messages_channel_known CHECK (channel IN ('mail', 'phone')),
     state text NOT NULL DEFAULT 'queued' CONSTRAINT messages_state_known
       CHECK (state IN ('queued', 'sending', 'sent', 'failed', 'gave_up', 'cancelled')),
     not_before timestamptz NOT NULL DEFAULT app_now(),
     expires_at timestamptz,
     attempts integer NOT NULL DEFAULT 0,
     last_error text,
     message_id text,
     address text,
     language text,
     text_version text,
     subject text,
     body text,
     sending_since timestamptz,
     turn_at timestamptz,
     sent_at timestamptz,
     bounced_at timestamptz,
     unsubscribe_hash bytea,
     repeats_id uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT messages_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT messages_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT messages_user_id_fkey FOREIGN KEY (studio_id, user_id) REFERENCES users,
     CONSTRAINT messages_repeats_id_fkey FOREIGN KEY (studio_id, repeats_id) REFERENCES messages,
     CONSTRAINT messages_one_recipient CHECK ((client_id IS NULL) <> (user_id IS NULL)),
     CONSTRAINT messages_sending_has_id CHECK (state <> 'sending' OR (message_id IS NOT NULL AND sending_since IS NOT NULL)),
     CONSTRAINT messages_sent_has_time CHECK (state <> 'sent' OR sent_at IS NOT NULL)
   )`,
  `CREATE INDEX messages_client ON messages (studio_id, client_id, id)`,
  `CREATE INDEX messages_subject ON messages (studio_id, subject_id) WHERE state = 'queued'`,
  ...tenantTable('messages'),

  `CREATE TABLE message_texts (
     studio_id uuid NOT NULL CONSTRAINT message_texts_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     template text NOT NULL,
     language text NOT NULL,
     version integer NOT NULL,
     subject text,
     body text,
     created_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT message_texts_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT message_texts_created_by_fkey FOREIGN KEY (studio_id, created_by) REFERENCES users,
     CONSTRAINT message_texts_version_once UNIQUE (studio_id, template, language, version),
     CONSTRAINT message_texts_whole CHECK ((subject IS NULL) = (body IS NULL))
   )`,
  ...tenantTable('message_texts', 'SELECT, INSERT'),

  `CREATE TABLE message_settings (
     studio_id uuid NOT NULL CONSTRAINT message_settings_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     sender_name text CONSTRAINT message_settings_sender_name_length CHECK (length(sender_name) BETWEEN 1 AND 120),
     language text NOT NULL DEFAULT 'en',
     quiet_from time,
     quiet_until time,
     announce_appointments boolean NOT NULL DEFAULT true,
     remind_two_days boolean NOT NULL DEFAULT true,
     remind_two_hours boolean NOT NULL DEFAULT true,
     attach_invitations boolean NOT NULL DEFAULT true,
     calendar_names text NOT NULL DEFAULT 'initials'
       CONSTRAINT message_settings_calendar_names_known CHECK (calendar_names IN ('none', 'initials', 'full')),
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT message_settings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT message_settings_one UNIQUE (studio_id),
     CONSTRAINT message_settings_quiet_whole
       CHECK ((quiet_from IS NULL) = (quiet_until IS NULL) AND quiet_from <> quiet_until)
   )`,
  ...tenantTable('message_settings'),

  // Of no studio: mail servers count what comes from the machine, whoever asked for it. It names no person.
  `CREATE TABLE mail_pace (
     domain text CONSTRAINT mail_pace_pkey PRIMARY KEY,
     next_at timestamptz NOT NULL
   )`,
  `GRANT SELECT, INSERT, UPDATE ON mail_pace TO fitting_worker`,

  `ALTER TABLE clients
     ADD language text CONSTRAINT clients_language_form CHECK (language ~ '^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$'),
     ADD undeliverable_email text`,
  // A client may withdraw by a link; then nobody of the studio recorded it.
  `ALTER TABLE client_consents
     DROP CONSTRAINT client_consents_withdrawal_whole,
     ADD CONSTRAINT client_consents_withdrawal_whole CHECK (withdrawn_at IS NOT NULL OR withdrawal_recorded_by IS NULL)`,
];

const undo = [
  `ALTER TABLE clients DROP COLUMN language, DROP COLUMN undeliverable_email`,
  `ALTER TABLE client_consents
     DROP CONSTRAINT client_consents_withdrawal_whole,
     ADD CONSTRAINT client_consents_withdrawal_whole
       CHECK ((withdrawn_at IS NULL) = (withdrawal_recorded_by IS NULL)) NOT VALID`,
  'DROP TABLE mail_pace, message_settings, message_texts, messages',
];
