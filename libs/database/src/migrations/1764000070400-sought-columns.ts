import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What clients and visits are looked for by, as columns: under row-level security an index serves neither `lower` nor the
 * operators of ranges, which are not leakproof.
 */
export class SoughtColumns1764000070400 implements MigrationInterface {
  readonly accepted = {
    'add-column-computed':
      'writing 100,000 visits anew took 11 s, and 20,000 clients 0.6 s; upgrading.md tells of it',
    'constraint-validated-at-once': 'while its rows are written anew',
  };

  async up(runner: QueryRunner): Promise<void> {
    await runner.query('SET LOCAL statement_timeout = 0');
    // It served nobody, and would be built anew with the table.
    await runner.query('DROP INDEX appointments_occupied');
    for (const [table, { columns, constraints }] of Object.entries(added)) {
      const all = [
        ...Object.entries(columns).map(
          ([name, { type, from }]) => `ADD COLUMN ${name} ${type} GENERATED ALWAYS AS (${from}) STORED`,
        ),
        ...Object.entries(constraints).map(([name, holds]) => `ADD CONSTRAINT ${name} CHECK (${holds})`),
      ];
      await runner.query(`ALTER TABLE ${table} ${all.join(', ')}`);
    }
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const [table, { columns }] of Object.entries(added)) {
      const dropped = Object.keys(columns).map((name) => `DROP COLUMN ${name}`);
      await runner.query(`ALTER TABLE ${table} ${dropped.join(', ')}`);
    }
    await runner.query('CREATE INDEX appointments_occupied ON appointments USING gist (studio_id, occupied)');
  }
}

/** In the order of bytes, so that what begins alike lies together. */
const inLowerCase = (name: string) => ({ type: 'text COLLATE "C"', from: `lower(${name})` });
const instant = (from: string) => ({ type: 'timestamptz', from });

/** A visit may take 18 hours with its buffers, and a bench two weeks after it; shoe work a bench for 30 days. */
const takenShortly = `taken_until - taken_from < interval '31 days'`;

const added = {
  clients: {
    columns: { given_name_lower: inLowerCase('given_name'), family_name_lower: inLowerCase('family_name') },
    constraints: {},
  },
  appointments: {
    columns: {
      taken_from: instant('lower(occupied)'),
      taken_until: instant('greatest(upper(occupied), upper(curing))'),
    },
    constraints: { appointments_taken_shortly: takenShortly },
  },
  shoe_works: {
    columns: { taken_from: instant('lower(curing)'), taken_until: instant('upper(curing)') },
    constraints: { shoe_works_taken_shortly: takenShortly },
  },
};
