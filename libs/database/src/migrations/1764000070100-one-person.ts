import type { MigrationInterface, QueryRunner } from 'typeorm';

/** All records of a person are found by the index that serves it. */
export class OnePerson1764000070100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query(
      sameClient(
        (record) =>
          `CASE WHEN ${record}.merged_into IS NULL THEN ${record}.id ELSE ${record}.merged_into END`,
      ),
    );
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(sameClient((record) => `coalesce(${record}.merged_into, ${record}.id)`));
  }
}

const sameClient = (survivorOf: (record: string) => string): string =>
  `CREATE OR REPLACE FUNCTION app_same_client(studio uuid, client uuid) RETURNS SETOF uuid
     LANGUAGE sql STABLE PARALLEL SAFE ROWS 1
     AS $$ SELECT c.id FROM clients one
             JOIN clients c ON c.studio_id = one.studio_id AND ${survivorOf('c')} = ${survivorOf('one')}
            WHERE one.studio_id = studio AND one.id = client $$`;
