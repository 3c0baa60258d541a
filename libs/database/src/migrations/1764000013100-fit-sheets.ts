import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Fit sheets ordered and made; the documents are in the storage, under the row's id. */
export class FitSheets1764000013100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE fit_sheets');
  }
}

const statements = [
  `CREATE TABLE fit_sheets (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     fit_session_id uuid NOT NULL,
     audience text NOT NULL CONSTRAINT fit_sheets_audience_known CHECK (audience IN ('rider', 'studio')),
     paper text NOT NULL CONSTRAINT fit_sheets_paper_known CHECK (paper IN ('a4', 'letter')),
     lengths text NOT NULL CONSTRAINT fit_sheets_lengths_known CHECK (lengths IN ('mm', 'mm_and_inch')),
     state text NOT NULL DEFAULT 'ordered'
       CONSTRAINT fit_sheets_state_known CHECK (state IN ('ordered', 'ready', 'failed')),
     figures text[] NOT NULL DEFAULT '{}',
     ordered_by uuid NOT NULL,
     finished_at timestamptz,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT fit_sheets_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT fit_sheets_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT fit_sheets_ordered_by_fkey FOREIGN KEY (studio_id, ordered_by) REFERENCES users,
     CONSTRAINT fit_sheets_finished_whole CHECK ((state = 'ordered') = (finished_at IS NULL))
   )`,
  `CREATE INDEX fit_sheets_session ON fit_sheets (studio_id, fit_session_id, id)`,
  ...tenantTable('fit_sheets'),
];
