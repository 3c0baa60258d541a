import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** A rider's position carried over to a second bike, or a second pair of shoes, for another use: kept as it was worked out. */
export class PairedPositions1764000022100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE paired_positions');
  }
}

const statements = [
  `CREATE TABLE paired_positions (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     first_session_id uuid NOT NULL,
     first_use text NOT NULL,
     second_bike_id uuid NOT NULL,
     second_shoe_id uuid NOT NULL,
     second_session_id uuid,
     second_use text NOT NULL,
     side text CONSTRAINT paired_positions_side_known CHECK (side IN ('left', 'right')),
     inputs jsonb NOT NULL,
     foot_pitch_from jsonb NOT NULL,
     result jsonb NOT NULL,
     formula_version text NOT NULL,
     because text NOT NULL,
     planned_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT paired_positions_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT paired_positions_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT paired_positions_first_session_id_fkey
       FOREIGN KEY (studio_id, first_session_id) REFERENCES fit_sessions,
     CONSTRAINT paired_positions_second_bike_id_fkey FOREIGN KEY (studio_id, second_bike_id) REFERENCES bikes,
     CONSTRAINT paired_positions_second_shoe_id_fkey FOREIGN KEY (studio_id, second_shoe_id) REFERENCES shoes,
     CONSTRAINT paired_positions_second_session_id_fkey
       FOREIGN KEY (studio_id, second_session_id) REFERENCES fit_sessions,
     CONSTRAINT paired_positions_planned_by_fkey FOREIGN KEY (studio_id, planned_by) REFERENCES users
   )`,
  `CREATE INDEX paired_positions_client ON paired_positions (studio_id, client_id, id)`,
  ...tenantTable('paired_positions', 'SELECT, INSERT'),
];
