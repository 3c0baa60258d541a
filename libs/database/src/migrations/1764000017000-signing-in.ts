import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Second factors, keys for programs, links to choose a password by, attempts to sign in, and each studio's own key. */
export class SigningIn1764000017000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      'DROP TABLE sign_in_attempts, password_links, api_keys, recovery_codes, second_factors, studio_keys',
    );
    await runner.query('ALTER TABLE refresh_tokens DROP COLUMN from_address, DROP COLUMN user_agent');
    // Whoever was invited and has not answered cannot sign in under the older schema either.
    await runner.query(`ALTER TABLE users ALTER COLUMN password_hash SET DEFAULT ''`);
    await runner.query(`UPDATE users SET password_hash = '' WHERE password_hash IS NULL`);
    await runner.query(
      `ALTER TABLE users ALTER COLUMN password_hash DROP DEFAULT, ALTER COLUMN password_hash SET NOT NULL`,
    );
  }
}

const ofUser = (table: string, columns: string): string =>
  `CREATE TABLE ${table} (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     user_id uuid NOT NULL,
     ${columns},
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT ${table}_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT ${table}_user_id_fkey FOREIGN KEY (studio_id, user_id) REFERENCES users
   )`;

const statements = [
  `ALTER TABLE users ALTER COLUMN password_hash DROP NOT NULL`,
  `ALTER TABLE refresh_tokens ADD COLUMN from_address text, ADD COLUMN user_agent text`,
  `CREATE INDEX refresh_tokens_user ON refresh_tokens (studio_id, user_id)`,

  `CREATE TABLE studio_keys (
     studio_id uuid NOT NULL CONSTRAINT studio_keys_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     master_key_id text NOT NULL,
     wrapped_key bytea NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT studio_keys_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT studio_keys_one UNIQUE (studio_id)
   )`,
  ...tenantTable('studio_keys', 'SELECT, INSERT, UPDATE, DELETE'),

  ofUser(
    'second_factors',
    `sealed_secret bytea NOT NULL,
     confirmed_at timestamptz,
     last_step bigint,
     CONSTRAINT second_factors_one UNIQUE (studio_id, user_id)`,
  ),
  ...tenantTable('second_factors', 'SELECT, INSERT, UPDATE, DELETE'),

  ofUser('recovery_codes', `code_hash bytea NOT NULL, used_at timestamptz`),
  `CREATE INDEX recovery_codes_user ON recovery_codes (studio_id, user_id)`,
  ...tenantTable('recovery_codes', 'SELECT, INSERT, UPDATE, DELETE'),

  ofUser(
    'api_keys',
    `name text NOT NULL,
     secret_hash bytea NOT NULL,
     roles text[] NOT NULL
       CONSTRAINT api_keys_roles_known CHECK (roles <@ ARRAY['owner', 'fitter', 'front_desk'] AND roles <> '{}'),
     read_only boolean NOT NULL,
     expires_at timestamptz NOT NULL,
     last_used_at timestamptz,
     revoked_at timestamptz`,
  ),
  `CREATE INDEX api_keys_user ON api_keys (studio_id, user_id)`,
  ...tenantTable('api_keys'),

  ofUser(
    'password_links',
    `reason text NOT NULL CONSTRAINT password_links_reason_known CHECK (reason IN ('invitation', 'reset')),
     link_hash bytea,
     message_id text,
     expires_at timestamptz NOT NULL,
     sent_at timestamptz,
     used_at timestamptz`,
  ),
  `CREATE INDEX password_links_user ON password_links (studio_id, user_id)`,
  ...tenantTable('password_links'),

  // The account as a hash: what is typed into the field by mistake can be anything, a password too.
  `CREATE TABLE sign_in_attempts (
     studio_id uuid NOT NULL CONSTRAINT sign_in_attempts_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     account_hash bytea NOT NULL,
     from_address text NOT NULL,
     result text NOT NULL DEFAULT 'failed'
       CONSTRAINT sign_in_attempts_result_known CHECK (result IN ('failed', 'succeeded', 'held_off')),
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT sign_in_attempts_pkey PRIMARY KEY (studio_id, id)
   )`,
  `CREATE INDEX sign_in_attempts_account ON sign_in_attempts (studio_id, account_hash, created_at)`,
  `CREATE INDEX sign_in_attempts_address ON sign_in_attempts (studio_id, from_address, created_at)`,
  ...tenantTable('sign_in_attempts', 'SELECT, INSERT, UPDATE, DELETE'),
];
