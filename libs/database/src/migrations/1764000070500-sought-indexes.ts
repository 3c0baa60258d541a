import type { MigrationInterface, QueryRunner } from 'typeorm';
import { concurrently } from './concurrently.js';

/** Of what the columns before are for; the index they stand in for served nobody. */
export class SoughtIndexes1764000070500 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    for (const [name, columns] of Object.entries(indexes)) {
      await concurrently(
        runner,
        `DROP INDEX CONCURRENTLY IF EXISTS ${name}`,
        `CREATE INDEX CONCURRENTLY ${name} ON ${columns}`,
      );
    }
    await concurrently(runner, 'DROP INDEX CONCURRENTLY IF EXISTS clients_name');
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const name of Object.keys(indexes)) {
      await concurrently(runner, `DROP INDEX CONCURRENTLY IF EXISTS ${name}`);
    }
    await concurrently(
      runner,
      'CREATE INDEX CONCURRENTLY clients_name ON clients (studio_id, lower(family_name), lower(given_name))',
    );
  }
}

const indexes = {
  clients_given_name: 'clients (studio_id, given_name_lower)',
  clients_family_name: 'clients (studio_id, family_name_lower)',
  appointments_taken: 'appointments (studio_id, taken_from, taken_until)',
  shoe_works_taken: 'shoe_works (studio_id, taken_from, taken_until)',
};
