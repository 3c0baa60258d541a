import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * One outcome row per signed session, answered or not, with all that a review chooses by; what clients were told, in
 * versions; what a studio's saddles showed against the formula.
 */
export class Outcomes1764000020000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE saddle_offsets, client_summaries');
    await runner.query('ALTER TABLE cleat_plans DROP COLUMN saddle_offset_mm');
    await runner.query('DROP INDEX outcome_summaries_signed');
    // Rows of sessions nobody answered for have no place in the older table; the worker makes the others anew.
    await runner.query('TRUNCATE outcome_summaries');
    await runner.query(
      `ALTER TABLE outcome_summaries ALTER COLUMN follow_up_id SET NOT NULL,
         DROP COLUMN fitter_id, DROP COLUMN signed_at, DROP COLUMN first_due_at, DROP COLUMN answer_state,
         DROP COLUMN cleat_moved_back_mm, DROP COLUMN cleat_short_of_midfoot_mm, DROP COLUMN foot_pitch_deg,
         DROP COLUMN saddle_offset_mm`,
    );
  }
}

/** The owner of the schema sees every studio only while a table's row-level security is not forced on it. */
const unforced = (tables: readonly string[], ...work: string[]): string[] => [
  ...tables.map((table) => `ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`),
  ...work,
  ...tables.map((table) => `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`),
];

const statements = [
  `ALTER TABLE cleat_plans ADD COLUMN saddle_offset_mm double precision NOT NULL DEFAULT 0`,

  // A summary can be made anew at any time, so none is kept in its old form.
  `TRUNCATE outcome_summaries`,
  `ALTER TABLE outcome_summaries
     ALTER COLUMN follow_up_id DROP NOT NULL,
     ADD COLUMN fitter_id uuid NOT NULL,
     ADD COLUMN signed_at timestamptz NOT NULL,
     ADD COLUMN first_due_at timestamptz,
     ADD COLUMN answer_state text NOT NULL
       CONSTRAINT outcome_summaries_answer_state_known
         CHECK (answer_state IN ('answered', 'asked', 'waiting', 'not_asked')),
     ADD COLUMN cleat_moved_back_mm double precision,
     ADD COLUMN cleat_short_of_midfoot_mm double precision,
     ADD COLUMN foot_pitch_deg double precision,
     ADD COLUMN saddle_offset_mm double precision NOT NULL,
     ADD CONSTRAINT outcome_summaries_fitter_id_fkey FOREIGN KEY (studio_id, fitter_id) REFERENCES users,
     ADD CONSTRAINT outcome_summaries_answered_whole
       CHECK ((answer_state = 'answered') = (follow_up_id IS NOT NULL))`,
  `CREATE INDEX outcome_summaries_signed ON outcome_summaries (studio_id, signed_at)`,
  ...unforced(
    ['fit_sessions', 'outbox'],
    `INSERT INTO outbox (studio_id, job, payload)
       SELECT studio_id, 'summarise-outcome', jsonb_build_object('fitSessionId', id)
         FROM fit_sessions WHERE signed_at IS NOT NULL`,
  ),

  `CREATE TABLE client_summaries (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     fit_session_id uuid NOT NULL,
     version integer NOT NULL,
     method_version text NOT NULL,
     inputs jsonb NOT NULL,
     result jsonb NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT client_summaries_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT client_summaries_fit_session_id_fkey
       FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT client_summaries_version_once UNIQUE (studio_id, fit_session_id, version)
   )`,
  ...tenantTable('client_summaries', 'SELECT, INSERT'),

  `CREATE TABLE saddle_offsets (
     studio_id uuid NOT NULL CONSTRAINT saddle_offsets_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     version integer NOT NULL,
     offset_mm double precision NOT NULL
       CONSTRAINT saddle_offsets_range CHECK (offset_mm BETWEEN -30 AND 30),
     because text NOT NULL,
     applied_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT saddle_offsets_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT saddle_offsets_applied_by_fkey FOREIGN KEY (studio_id, applied_by) REFERENCES users,
     CONSTRAINT saddle_offsets_version_once UNIQUE (studio_id, version)
   )`,
  ...tenantTable('saddle_offsets', 'SELECT, INSERT'),
];
