import { describe, expect, it } from '@jest/globals';
import { dangersOf, rules } from '../../scripts/services/migration-safety.mjs';

const broken = async (...statements: string[]): Promise<string[]> =>
  (await dangersOf(statements)).map(({ rule }) => rule);

/** A statement that breaks each rule, as somebody might well write it. */
const bad: readonly [rule: keyof typeof rules, statement: string][] = [
  ['add-column-not-null', 'ALTER TABLE clients ADD COLUMN pronoun text NOT NULL'],
  ['add-column-computed', 'ALTER TABLE clients ADD COLUMN token uuid NOT NULL DEFAULT gen_random_uuid()'],
  ['add-column-computed', 'ALTER TABLE clients ADD COLUMN seen_at timestamptz DEFAULT clock_timestamp()'],
  [
    'add-column-computed',
    'ALTER TABLE clients ADD COLUMN twice integer GENERATED ALWAYS AS (age * 2) STORED',
  ],
  ['add-column-computed', 'ALTER TABLE clients ADD COLUMN number bigserial'],
  [
    'add-column-constraint',
    'ALTER TABLE clients ADD COLUMN age integer CONSTRAINT clients_age CHECK (age > 0)',
  ],
  ['add-column-constraint', 'ALTER TABLE clients ADD COLUMN site_id uuid REFERENCES sites'],
  [
    'constraint-validated-at-once',
    'ALTER TABLE clients ADD CONSTRAINT clients_site_id_fkey FOREIGN KEY (studio_id, site_id) REFERENCES sites',
  ],
  [
    'constraint-validated-at-once',
    'ALTER TABLE clients ADD CONSTRAINT clients_name CHECK (length(name) < 200)',
  ],
  ['set-not-null', 'ALTER TABLE clients ALTER COLUMN email SET NOT NULL'],
  ['constraint-builds-index', 'ALTER TABLE clients ADD CONSTRAINT clients_once UNIQUE (studio_id, email)'],
  [
    'constraint-builds-index',
    'ALTER TABLE clients ADD CONSTRAINT clients_apart EXCLUDE USING gist (studio_id WITH =)',
  ],
  ['alter-type', 'ALTER TABLE clients ALTER COLUMN age TYPE bigint'],
  ['index-locks-writers', 'CREATE INDEX clients_email ON clients (studio_id, email)'],
  ['concurrently-in-transaction', 'CREATE INDEX CONCURRENTLY clients_email ON clients (studio_id, email)'],
  ['drop-column', 'ALTER TABLE clients DROP COLUMN age'],
  ['drop-table', 'DROP TABLE clients'],
  ['rename', 'ALTER TABLE clients RENAME COLUMN age TO years'],
  ['rename', 'ALTER TABLE clients RENAME TO riders'],
  ['rewrite', 'TRUNCATE clients'],
  ['rewrite', 'ALTER TABLE clients SET UNLOGGED'],
  ['rows-changed', 'UPDATE clients SET age = 0 WHERE age IS NULL'],
  ['rows-changed', 'DELETE FROM clients'],
  ['cannot-look-inside', 'DO $$ BEGIN ALTER TABLE clients DROP COLUMN age; END $$'],
];

describe('a migration of tables that are in use', () => {
  it.each(bad)('is refused for %s: %s', async (rule, statement) => {
    expect(await broken(statement)).toEqual([rule]);
  });

  it('is refused when it validates a constraint under the lock it was added with', async () => {
    expect(
      await broken(
        'ALTER TABLE clients ADD CONSTRAINT clients_age CHECK (age > 0) NOT VALID',
        'ALTER TABLE clients VALIDATE CONSTRAINT clients_age',
      ),
    ).toEqual(['validate-with-add']);
  });

  it('is refused when it does more than make indexes outside a transaction', async () => {
    const found = await dangersOf(
      [
        'SET statement_timeout = 0',
        'DROP INDEX CONCURRENTLY IF EXISTS clients_email',
        'CREATE INDEX CONCURRENTLY clients_email ON clients (studio_id, email)',
        'ALTER TABLE clients ADD COLUMN note text',
      ],
      { transaction: false },
    );
    expect(found.map(({ rule }) => rule)).toEqual(['more-outside-transaction']);
  });

  it('may be refused by every rule there is', () => {
    const shown = new Set<string>(bad.map(([rule]) => rule));
    expect(Object.keys(rules).filter((rule) => !shown.has(rule))).toEqual([
      'validate-with-add',
      'more-outside-transaction',
    ]);
  });

  it('is let pass where nobody has to wait', async () => {
    const good = [
      'CREATE TABLE notes (studio_id uuid NOT NULL, id uuid, text text NOT NULL)',
      'CREATE INDEX notes_text ON notes (studio_id, text)',
      'ALTER TABLE notes ADD CONSTRAINT notes_pkey PRIMARY KEY (studio_id, id)',
      'ALTER TABLE notes ENABLE ROW LEVEL SECURITY',
      `ALTER TABLE clients ADD COLUMN state text NOT NULL DEFAULT 'new', ADD COLUMN tags text[] DEFAULT '{}'::text[]`,
      'ALTER TABLE clients ADD COLUMN seen_at timestamptz NOT NULL DEFAULT app_now()',
      'ALTER TABLE clients ADD CONSTRAINT clients_age CHECK (age > 0) NOT VALID',
      'ALTER TABLE clients ADD CONSTRAINT clients_email_given NOT NULL email NOT VALID',
      'ALTER TABLE clients VALIDATE CONSTRAINT clients_of_before',
      'ALTER TABLE clients ADD CONSTRAINT clients_once UNIQUE USING INDEX clients_email_once',
      'GRANT SELECT ON clients TO fitting_api',
      'DROP INDEX clients_email',
    ];
    expect(await broken(...good)).toEqual([]);
  });

  it('may say why it does it all the same', async () => {
    const drop = 'ALTER TABLE clients DROP COLUMN age';
    expect(await dangersOf([drop], { accepted: { 'drop-column': 'nothing has read it since 2.1' } })).toEqual(
      [],
    );
  });
});
