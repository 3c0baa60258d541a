import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A studio's key can be destroyed for good: its row stays, so that no other is drawn in its place. */
export class DestroyedKeys1764000050100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      'ALTER TABLE studio_keys ADD COLUMN destroyed_at timestamptz, ALTER COLUMN wrapped_key DROP NOT NULL',
    );
    await runner.query('REVOKE DELETE ON studio_keys FROM fitting_api, fitting_worker');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('GRANT DELETE ON studio_keys TO fitting_api, fitting_worker');
    await runner.query('ALTER TABLE studio_keys NO FORCE ROW LEVEL SECURITY');
    await runner.query('DELETE FROM studio_keys WHERE wrapped_key IS NULL');
    await runner.query('ALTER TABLE studio_keys FORCE ROW LEVEL SECURITY');
    await runner.query(
      'ALTER TABLE studio_keys DROP COLUMN destroyed_at, ALTER COLUMN wrapped_key SET NOT NULL',
    );
  }
}
