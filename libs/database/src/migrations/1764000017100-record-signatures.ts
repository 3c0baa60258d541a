import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** A studio's signatures in one chain: what was signed, word for word, and the signature before. */
export class RecordSignatures1764000017100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE record_signatures');
  }
}

const statements = [
  `CREATE TABLE record_signatures (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     number integer NOT NULL CONSTRAINT record_signatures_number_positive CHECK (number > 0),
     kind text NOT NULL CONSTRAINT record_signatures_kind_known CHECK (kind IN ('session', 'amendment')),
     fit_session_id uuid NOT NULL,
     amendment_id uuid,
     content text NOT NULL,
     content_hash text NOT NULL,
     previous_hash text,
     hash text NOT NULL,
     signed_by uuid NOT NULL,
     signed_at timestamptz NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT record_signatures_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT record_signatures_number_once UNIQUE (studio_id, number),
     CONSTRAINT record_signatures_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT record_signatures_amendment_id_fkey FOREIGN KEY (studio_id, amendment_id) REFERENCES amendments,
     CONSTRAINT record_signatures_signed_by_fkey FOREIGN KEY (studio_id, signed_by) REFERENCES users,
     CONSTRAINT record_signatures_first_has_none_before CHECK ((number = 1) = (previous_hash IS NULL)),
     CONSTRAINT record_signatures_amendment_named CHECK ((kind = 'amendment') = (amendment_id IS NOT NULL))
   )`,
  `CREATE INDEX record_signatures_session ON record_signatures (studio_id, fit_session_id)`,
  ...tenantTable('record_signatures', 'SELECT, INSERT'),
];
