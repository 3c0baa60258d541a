import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What clients and visits are looked for by, as columns: under row-level security an index serves neither `lower` nor the
 * operators of ranges, which are not leakproof.
 */
export class SoughtColumns1764000070400 implements MigrationInterface {
  readonly accepted = {
    'add-column-computed': 'REASON',
  };

  async up(runner: QueryRunner): Promise<void> {
    for (const [table, columns] of Object.entries(computed)) {
      const added = Object.entries(columns).map(
        ([name, { type, from }]) => `ADD COLUMN ${name} ${type} GENERATED ALWAYS AS (${from}) STORED`,
      );
      await runner.query(`ALTER TABLE ${table} ${added.join(', ')}`);
    }
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const [table, columns] of Object.entries(computed)) {
      const dropped = Object.keys(columns).map((name) => `DROP COLUMN ${name}`);
      await runner.query(`ALTER TABLE ${table} ${dropped.join(', ')}`);
    }
  }
}

/** In the order of bytes, so that what begins alike lies together. */
const inLowerCase = (name: string) => ({ type: 'text COLLATE "C"', from: `lower(${name})` });
const instant = (from: string) => ({ type: 'timestamptz', from });

const computed = {
  clients: {
    given_name_lower: inLowerCase('given_name'),
    family_name_lower: inLowerCase('family_name'),
  },
  appointments: {
    taken_from: instant('lower(occupied)'),
    taken_until: instant('greatest(upper(occupied), upper(curing))'),
  },
  shoe_works: {
    taken_from: instant('lower(curing)'),
    taken_until: instant('upper(curing)'),
  },
};
