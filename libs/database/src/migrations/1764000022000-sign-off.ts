import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** What a rider is told of the first weeks, kept with the record; sheets in a language; plans with where the foot's pitch is from. */
export class SignOff1764000022000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE session_advice');
    await runner.query('ALTER TABLE fit_sheets DROP COLUMN language');
    await runner.query('ALTER TABLE plans DROP COLUMN foot_pitch_from');
  }
}

const statements = [
  `CREATE TABLE session_advice (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     fit_session_id uuid NOT NULL,
     stage text NOT NULL,
     advice_version integer NOT NULL,
     language text NOT NULL CONSTRAINT session_advice_language_known CHECK (language IN ('en', 'de')),
     items text[] NOT NULL,
     written_by uuid,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT session_advice_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT session_advice_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT session_advice_written_by_fkey FOREIGN KEY (studio_id, written_by) REFERENCES users,
     CONSTRAINT session_advice_once UNIQUE (studio_id, fit_session_id)
   )`,
  ...tenantTable('session_advice'),
  `CREATE TRIGGER session_advice_kept_once_signed BEFORE INSERT OR UPDATE OR DELETE ON session_advice
     FOR EACH ROW EXECUTE FUNCTION keep_signed_part()`,

  `ALTER TABLE fit_sheets
     ADD language text CONSTRAINT fit_sheets_language_known CHECK (language IN ('en', 'de'))`,
  `ALTER TABLE plans ADD foot_pitch_from jsonb NOT NULL DEFAULT '[]'`,
];
