import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What a client may do is asked with every booking and day sheet, of a few findings among all that were judged. */
export class WeighedResults1764000070300 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE screenings ADD COLUMN weighed jsonb');
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('ALTER TABLE screenings DROP COLUMN weighed');
  }
}
