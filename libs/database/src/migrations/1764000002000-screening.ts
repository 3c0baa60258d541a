import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Screenings and the clearances that answer them. Both are kept as they were: insert and select only. */
export class Screening1764000002000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE clearances, screenings');
  }
}

const statements = [
  `CREATE TABLE screenings (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     occasion text NOT NULL CONSTRAINT screenings_occasion_known CHECK (occasion IN ('intake', 'follow_up')),
     question_set_id text NOT NULL,
     question_set_version text NOT NULL,
     answers jsonb NOT NULL,
     rule_set_version text NOT NULL,
     result jsonb NOT NULL,
     permission_level text NOT NULL
       CONSTRAINT screenings_permission_known CHECK (permission_level IN ('none', 'limited', 'full')),
     taken_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT screenings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT screenings_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT screenings_taken_by_fkey FOREIGN KEY (studio_id, taken_by) REFERENCES users
   )`,
  `CREATE INDEX screenings_client ON screenings (studio_id, client_id, id)`,
  ...tenantTable('screenings', 'SELECT, INSERT'),

  `CREATE TABLE clearances (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     screening_id uuid NOT NULL,
     reason text NOT NULL,
     cleared_by_clinician text NOT NULL,
     recorded_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT clearances_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT clearances_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT clearances_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT clearances_recorded_by_fkey FOREIGN KEY (studio_id, recorded_by) REFERENCES users,
     CONSTRAINT clearances_once UNIQUE (studio_id, screening_id)
   )`,
  ...tenantTable('clearances', 'SELECT, INSERT'),
];
