import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Who is a licensed clinician and what they found; and who opened a restricted record, why. */
export class Permissions1764000040000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE record_openings, clinician_scores, clinician_marks');
  }
}

const statements = [
  `CREATE TABLE clinician_marks (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     user_id uuid NOT NULL,
     registration text NOT NULL,
     checked_on date NOT NULL,
     given_by uuid NOT NULL,
     ended_at timestamptz,
     ended_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT clinician_marks_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT clinician_marks_user_id_fkey FOREIGN KEY (studio_id, user_id) REFERENCES users,
     CONSTRAINT clinician_marks_given_by_fkey FOREIGN KEY (studio_id, given_by) REFERENCES users,
     CONSTRAINT clinician_marks_ended_by_fkey FOREIGN KEY (studio_id, ended_by) REFERENCES users,
     CONSTRAINT clinician_marks_ended_whole CHECK ((ended_at IS NULL) = (ended_by IS NULL))
   )`,
  `CREATE UNIQUE INDEX clinician_marks_one ON clinician_marks (studio_id, user_id) WHERE ended_at IS NULL`,
  ...tenantTable('clinician_marks', 'SELECT, INSERT'),
  `GRANT UPDATE (ended_at, ended_by) ON clinician_marks TO fitting_api`,

  `CREATE TABLE clinician_scores (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     screening_id uuid NOT NULL,
     kind text NOT NULL,
     found jsonb NOT NULL,
     result jsonb NOT NULL,
     clinician_mark_id uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT clinician_scores_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT clinician_scores_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT clinician_scores_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT clinician_scores_clinician_mark_id_fkey
       FOREIGN KEY (studio_id, clinician_mark_id) REFERENCES clinician_marks
   )`,
  `CREATE INDEX clinician_scores_client ON clinician_scores (studio_id, client_id, id)`,
  ...tenantTable('clinician_scores', 'SELECT, INSERT'),
  `GRANT DELETE ON clinician_scores TO fitting_worker`,

  `CREATE TABLE record_openings (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     opened_by uuid NOT NULL,
     ground text NOT NULL
       CONSTRAINT record_openings_ground_known CHECK (ground IN
         ('consent_of_the_person', 'legal_claim', 'protection_of_another_person', 'important_public_interest')),
     reason text NOT NULL,
     expires_at timestamptz NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT record_openings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT record_openings_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT record_openings_opened_by_fkey FOREIGN KEY (studio_id, opened_by) REFERENCES users,
     CONSTRAINT record_openings_expires_after CHECK (created_at < expires_at)
   )`,
  `CREATE INDEX record_openings_client ON record_openings (studio_id, client_id, expires_at)`,
  ...tenantTable('record_openings', 'SELECT, INSERT'),
  `GRANT DELETE ON record_openings TO fitting_worker`,
];
