import type { MigrationInterface, QueryRunner } from 'typeorm';

/** The relay looks across studios only to find and to finish orders; it adds them as their studio, like all others. */
export class RelayPolicy1764000003500 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('DROP POLICY outbox_of_relay ON outbox');
    await runner.query(
      'CREATE POLICY outbox_found_by_relay ON outbox FOR SELECT TO fitting_worker USING (true)',
    );
    await runner.query(
      'CREATE POLICY outbox_finished_by_relay ON outbox FOR UPDATE TO fitting_worker USING (true)',
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP POLICY outbox_found_by_relay ON outbox');
    await runner.query('DROP POLICY outbox_finished_by_relay ON outbox');
    await runner.query(
      'CREATE POLICY outbox_of_relay ON outbox TO fitting_worker USING (true) WITH CHECK (true)',
    );
  }
}
