import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** From where, and what before and after as hashes; entries sealed in a chain; looked for by person and by action. */
export class Audit1764000017200 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE audit_seals');
    await runner.query(
      `ALTER TABLE audit_entries DROP COLUMN from_address, DROP COLUMN before_hash, DROP COLUMN after_hash,
         DROP COLUMN sealed_in`,
    );
    await runner.query('DROP INDEX audit_entries_user');
  }
}

const statements = [
  `ALTER TABLE audit_entries
     ADD COLUMN from_address text,
     ADD COLUMN before_hash bytea,
     ADD COLUMN after_hash bytea,
     ADD COLUMN sealed_in integer`,
  `CREATE INDEX audit_entries_user ON audit_entries (studio_id, user_id, id)`,
  `CREATE INDEX audit_entries_unsealed ON audit_entries (studio_id, id) WHERE sealed_in IS NULL`,
  // The one column that may change, once, and only by the worker that seals.
  `GRANT UPDATE (sealed_in) ON audit_entries TO fitting_worker`,

  `CREATE TABLE audit_seals (
     studio_id uuid NOT NULL CONSTRAINT audit_seals_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     number integer NOT NULL,
     entries integer NOT NULL,
     previous_hash text,
     hash text NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT audit_seals_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT audit_seals_number_once UNIQUE (studio_id, number),
     CONSTRAINT audit_seals_first_has_none_before CHECK ((number = 1) = (previous_hash IS NULL))
   )`,
  ...tenantTable('audit_seals', 'SELECT, INSERT'),
];
