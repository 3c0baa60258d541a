import type { MigrationInterface, QueryRunner } from 'typeorm';
import { dropIndexes, makeIndexes } from './concurrently.js';

/**
 * What was found by reading all of a studio: consents and links to the intake by client, files by session. And the records of
 * a person, by an expression that an index serves under row-level security, too: COALESCE does not count as leakproof.
 */
export class IndexesForManyRows1764000070000 implements MigrationInterface {
  readonly transaction = false;

  async up(runner: QueryRunner): Promise<void> {
    await makeIndexes(runner, indexes);
  }

  async down(runner: QueryRunner): Promise<void> {
    await dropIndexes(runner, Object.keys(indexes));
  }
}

const indexes = {
  client_consents_client: 'client_consents (studio_id, client_id, kind)',
  intake_links_client: 'intake_links (studio_id, client_id)',
  files_session: 'files (studio_id, fit_session_id) WHERE fit_session_id IS NOT NULL',
  clients_one_person: 'clients (studio_id, (CASE WHEN merged_into IS NULL THEN id ELSE merged_into END))',
};
