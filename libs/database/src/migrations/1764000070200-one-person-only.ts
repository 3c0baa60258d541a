import type { MigrationInterface, QueryRunner } from 'typeorm';
import { concurrently } from './concurrently.js';

/** Nothing asks the index by COALESCE any more. */
export class OnePersonOnly1764000070200 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    await concurrently(runner, 'DROP INDEX CONCURRENTLY IF EXISTS clients_person');
  }

  async down(runner: QueryRunner): Promise<void> {
    await concurrently(
      runner,
      'DROP INDEX CONCURRENTLY IF EXISTS clients_person',
      'CREATE INDEX CONCURRENTLY clients_person ON clients (studio_id, coalesce(merged_into, id))',
    );
  }
}
