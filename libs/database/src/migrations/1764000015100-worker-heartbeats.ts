import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Workers belong to no studio; that one lives is all that is told of them. */
export class WorkerHeartbeats1764000015100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      `CREATE TABLE worker_heartbeats (
         id uuid PRIMARY KEY,
         started_at timestamptz NOT NULL DEFAULT now(),
         beat_at timestamptz NOT NULL DEFAULT now()
       )`,
    );
    await runner.query('GRANT SELECT, INSERT, UPDATE, DELETE ON worker_heartbeats TO fitting_worker');
    await runner.query('GRANT SELECT ON worker_heartbeats TO fitting_api');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE worker_heartbeats');
  }
}
