import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Studios, people who sign in, the audit log, the outbox and the clock. */
export class Foundations1764000000000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      'DROP TABLE outbox, audit_entries, refresh_tokens, users, studio_handles, studios, test_clock',
    );
    await runner.query('DROP FUNCTION announce_outbox(), app_now(), app_studio_id()');
  }
}

const statements = [
  // After a transaction the setting reads '' and not NULL, hence NULLIF.
  `CREATE FUNCTION app_studio_id() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE
     AS $$ SELECT NULLIF(current_setting('app.studio_id', true), '')::uuid $$`,

  // Empty in production, where nobody is granted to write it: then app_now() is now().
  `CREATE TABLE test_clock (
     only_row boolean PRIMARY KEY DEFAULT true CONSTRAINT test_clock_only_row CHECK (only_row),
     ahead_by interval NOT NULL
   )`,
  `GRANT SELECT ON test_clock TO fitting_api, fitting_worker`,
  `CREATE FUNCTION app_now() RETURNS timestamptz LANGUAGE sql STABLE PARALLEL SAFE
     AS $$ SELECT now() + coalesce((SELECT ahead_by FROM test_clock), interval '0') $$`,

  `CREATE TABLE studios (
     id uuid PRIMARY KEY DEFAULT uuidv7(),
     name text NOT NULL CONSTRAINT studios_name_length CHECK (length(name) BETWEEN 1 AND 200),
     time_zone text NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now()
   )`,
  ...tenantTable('studios', 'SELECT', 'id'),

  `CREATE TABLE studio_handles (
     handle text PRIMARY KEY CONSTRAINT studio_handles_form CHECK (handle ~ '^[a-z0-9-]{3,40}$'),
     studio_id uuid NOT NULL CONSTRAINT studio_handles_studio_id_fkey REFERENCES studios
   )`,
  // Sign-in begins before the studio is known, so anyone may resolve a handle; only its studio may write it.
  `ALTER TABLE studio_handles ENABLE ROW LEVEL SECURITY`,
  `ALTER TABLE studio_handles FORCE ROW LEVEL SECURITY`,
  `CREATE POLICY studio_handles_readable ON studio_handles FOR SELECT USING (true)`,
  `CREATE POLICY studio_handles_of_studio ON studio_handles FOR INSERT WITH CHECK (studio_id = app_studio_id())`,
  `GRANT SELECT ON studio_handles TO fitting_api, fitting_worker`,

  `CREATE TABLE users (
     studio_id uuid NOT NULL CONSTRAINT users_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     email text NOT NULL CONSTRAINT users_email_lower_case CHECK (email = lower(email)),
     display_name text NOT NULL,
     password_hash text NOT NULL,
     roles text[] NOT NULL
       CONSTRAINT users_roles_known CHECK (roles <@ ARRAY['owner', 'fitter', 'front_desk'] AND roles <> '{}'),
     disabled_at timestamptz,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT users_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT users_email_once UNIQUE (studio_id, email)
   )`,
  ...tenantTable('users'),

  `CREATE TABLE refresh_tokens (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     user_id uuid NOT NULL,
     family_id uuid NOT NULL,
     secret_hash bytea NOT NULL,
     issued_at timestamptz NOT NULL DEFAULT now(),
     expires_at timestamptz NOT NULL,
     replaced_at timestamptz,
     revoked_at timestamptz,
     CONSTRAINT refresh_tokens_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT refresh_tokens_user_id_fkey FOREIGN KEY (studio_id, user_id) REFERENCES users
   )`,
  `CREATE INDEX refresh_tokens_family ON refresh_tokens (studio_id, family_id)`,
  ...tenantTable('refresh_tokens'),

  `CREATE TABLE audit_entries (
     studio_id uuid NOT NULL CONSTRAINT audit_entries_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     user_id uuid,
     request_id text NOT NULL,
     action text NOT NULL,
     record_id uuid NOT NULL,
     fields text[] NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT audit_entries_pkey PRIMARY KEY (studio_id, id)
   )`,
  `CREATE INDEX audit_entries_record ON audit_entries (studio_id, record_id)`,
  ...tenantTable('audit_entries', 'SELECT, INSERT'),

  `CREATE TABLE outbox (
     studio_id uuid NOT NULL CONSTRAINT outbox_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     job text NOT NULL,
     payload jsonb NOT NULL,
     available_at timestamptz NOT NULL DEFAULT app_now(),
     relayed_at timestamptz,
     done_at timestamptz,
     gave_up_at timestamptz,
     last_error text,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT outbox_pkey PRIMARY KEY (studio_id, id)
   )`,
  `CREATE INDEX outbox_open ON outbox (available_at) WHERE done_at IS NULL AND gave_up_at IS NULL`,
  ...tenantTable('outbox'),
  // The relay hands out the rows of every studio; they hold ids only.
  `CREATE POLICY outbox_of_relay ON outbox TO fitting_worker USING (true) WITH CHECK (true)`,
  `CREATE FUNCTION announce_outbox() RETURNS trigger LANGUAGE plpgsql
     AS $$ BEGIN PERFORM pg_notify('outbox', ''); RETURN NULL; END $$`,
  `CREATE TRIGGER outbox_announced AFTER INSERT ON outbox
     FOR EACH STATEMENT EXECUTE FUNCTION announce_outbox()`,
];
