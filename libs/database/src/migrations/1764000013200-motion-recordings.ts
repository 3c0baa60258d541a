import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** What captured motion of a session shows; the recording itself is not kept. */
export class MotionRecordings1764000013200 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE motion_recordings');
  }
}

const statements = [
  `CREATE TABLE motion_recordings (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     fit_session_id uuid NOT NULL,
     side text NOT NULL CONSTRAINT motion_recordings_side_known CHECK (side IN ('left', 'right')),
     film jsonb NOT NULL,
     sha256 text NOT NULL,
     result jsonb NOT NULL,
     formula_version text NOT NULL,
     imported_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT motion_recordings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT motion_recordings_fit_session_id_fkey
       FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT motion_recordings_imported_by_fkey FOREIGN KEY (studio_id, imported_by) REFERENCES users
   )`,
  `CREATE INDEX motion_recordings_session ON motion_recordings (studio_id, fit_session_id, id)`,
  ...tenantTable('motion_recordings', 'SELECT, INSERT'),
  `CREATE TRIGGER motion_recordings_kept_once_signed BEFORE INSERT OR UPDATE OR DELETE ON motion_recordings
     FOR EACH ROW EXECUTE FUNCTION keep_signed_part()`,
];
