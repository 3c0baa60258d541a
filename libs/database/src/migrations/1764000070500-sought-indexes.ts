import type { MigrationInterface, QueryRunner } from 'typeorm';
import { dropIndexes, makeIndexes } from './concurrently.js';

/** Of what the columns before are for; the index they stand in for served nobody. */
export class SoughtIndexes1764000070500 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    await makeIndexes(runner, indexes);
    await dropIndexes(runner, ['clients_name']);
  }

  async down(runner: QueryRunner): Promise<void> {
    await dropIndexes(runner, Object.keys(indexes));
    await makeIndexes(runner, {
      clients_name: 'clients (studio_id, lower(family_name), lower(given_name))',
    });
  }
}

const indexes = {
  clients_given_name: 'clients (studio_id, given_name_lower)',
  clients_family_name: 'clients (studio_id, family_name_lower)',
  appointments_taken: 'appointments (studio_id, taken_from, taken_until)',
  shoe_works_taken: 'shoe_works (studio_id, taken_from, taken_until)',
};
