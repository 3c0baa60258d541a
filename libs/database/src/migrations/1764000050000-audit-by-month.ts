import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * The audit log in a partition a month, so that what is kept long enough goes as a table and no row is ever deleted. The
 * apps' roles reach the parent only; months are made and let go of by two functions of the owner.
 */
export class AuditByMonth1764000050000 implements MigrationInterface {
  readonly accepted = {
    rename: 'a table cannot be made a partitioned one: the code before knows the same name again at once',
    'drop-table': 'its rows were moved',
  };

  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undo) await runner.query(statement);
  }
}

const columns = `studio_id uuid NOT NULL CONSTRAINT audit_entries_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     user_id uuid,
     request_id text NOT NULL,
     action text NOT NULL,
     record_id uuid NOT NULL,
     fields text[] NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     from_address text,
     before_hash bytea,
     after_hash bytea,
     sealed_in integer`;

const names =
  'studio_id, id, user_id, request_id, action, record_id, fields, created_at, from_address, before_hash, after_hash, sealed_in';

/** In place of the table that stands, with its rows. */
const replaced = (
  partitioned: boolean,
  key: string,
  { before = [], after = [] }: Record<string, string[]>,
) => [
  'ALTER TABLE audit_entries RENAME TO audit_entries_before',
  `ALTER TABLE audit_entries_before DROP CONSTRAINT audit_entries_pkey, DROP CONSTRAINT audit_entries_studio_id_fkey`,
  ...['record', 'user', 'unsealed'].map((index) => `DROP INDEX audit_entries_${index}`),
  `CREATE TABLE audit_entries (
     ${columns},
     CONSTRAINT audit_entries_pkey PRIMARY KEY (${key})
   ) ${partitioned ? 'PARTITION BY RANGE (created_at)' : ''}`,
  ...before,
  'ALTER TABLE audit_entries_before NO FORCE ROW LEVEL SECURITY',
  `INSERT INTO audit_entries (${names}) SELECT ${names} FROM audit_entries_before`,
  'DROP TABLE audit_entries_before',
  ...after,
  'CREATE INDEX audit_entries_record ON audit_entries (studio_id, record_id)',
  'CREATE INDEX audit_entries_user ON audit_entries (studio_id, user_id, id)',
  'CREATE INDEX audit_entries_unsealed ON audit_entries (studio_id, id) WHERE sealed_in IS NULL',
  ...tenantTable('audit_entries', 'SELECT, INSERT'),
  'GRANT UPDATE (sealed_in) ON audit_entries TO fitting_worker',
];

/** Row-level security of a partition, for whoever should reach it past the parent; no privilege lets the apps' roles. */
const guarded = (table: string): string[] => tenantTable(table).filter((sql) => !sql.startsWith('GRANT'));

const ofOwner = (table: string): string =>
  `CREATE POLICY ${table}_of_owner ON ${table} TO CURRENT_USER USING (true) WITH CHECK (true)`;

/** Functions that do as their owner what a caller may not: nobody's own schema is looked in. */
const asOwner = `LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp SET lock_timeout = '3s'`;

const statements = [
  ...replaced(true, 'studio_id, id, created_at', {
    // Takes what no month is there for, until a month is made.
    before: ['CREATE TABLE audit_entries_other PARTITION OF audit_entries DEFAULT'],
    after: [...guarded('audit_entries_other'), ofOwner('audit_entries_other')],
  }),
  // A seal covers one month's entries, and stands without them once the month is let go of.
  `ALTER TABLE audit_seals
     ADD COLUMN month date,
     ADD COLUMN entries_hash text,
     ADD COLUMN lets_go date`,
  ofOwner('audit_seals'),

  `CREATE FUNCTION audit_prepare_months(ahead integer) RETURNS void ${asOwner} AS $$
     DECLARE
       first timestamptz;
       month text;
     BEGIN
       PERFORM pg_advisory_xact_lock(hashtextextended('audit_prepare_months', 0));
       FOR first IN
         SELECT generate_series(date_trunc('month', now(), 'UTC'),
                                date_trunc('month', now() + make_interval(months => ahead), 'UTC'), '1 month', 'UTC')
         UNION
         SELECT DISTINCT date_trunc('month', created_at, 'UTC') FROM audit_entries_other WHERE created_at < now()
       LOOP
         month := 'audit_entries_' || to_char(first AT TIME ZONE 'UTC', 'YYYY_MM');
         CONTINUE WHEN to_regclass(month) IS NOT NULL;
         EXECUTE format('CREATE TABLE %I (LIKE audit_entries INCLUDING DEFAULTS INCLUDING CONSTRAINTS)', month);
         EXECUTE format(
           'WITH net AS (DELETE FROM audit_entries_other WHERE created_at >= %2$L AND created_at < %3$L RETURNING *)
            INSERT INTO %1$I SELECT * FROM net',
           month, first, date_add(first, '1 month', 'UTC'));
         EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', month);
         EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', month);
         EXECUTE format('CREATE POLICY %I ON %I USING (studio_id = app_studio_id()) WITH CHECK (studio_id = app_studio_id())',
                        month || '_of_studio', month);
         EXECUTE format('ALTER TABLE audit_entries ATTACH PARTITION %I FOR VALUES FROM (%L) TO (%L)',
                        month, first, date_add(first, '1 month', 'UTC'));
       END LOOP;
     END $$`,

  // Whoever calls it: a year stays, and so does a month that a studio's chain has not let go of.
  `CREATE FUNCTION audit_drop_months(before date) RETURNS integer ${asOwner} AS $$
     DECLARE
       month text;
       first date;
       unsealed boolean;
       dropped integer := 0;
     BEGIN
       FOR month IN
         SELECT c.relname FROM pg_inherits i JOIN pg_class c ON c.oid = i.inhrelid
          WHERE i.inhparent = 'audit_entries'::regclass AND c.relname ~ '^audit_entries_[0-9]{4}_[0-9]{2}$' ORDER BY 1
       LOOP
         first := to_date(right(month, 7), 'YYYY_MM');
         EXIT WHEN first + interval '1 month' > least(before, (now() - interval '1 year') AT TIME ZONE 'UTC');
         CONTINUE WHEN EXISTS (
           SELECT FROM audit_seals s
            WHERE s.lets_go IS NULL
              AND (s.month = first AND NOT EXISTS (
                     SELECT FROM audit_seals l WHERE l.studio_id = s.studio_id AND l.lets_go = first)
                   -- From before seals kept to a month: nobody knows which.
                   OR s.month IS NULL AND s.created_at >= first));
         EXECUTE format('ALTER TABLE %I NO FORCE ROW LEVEL SECURITY', month);
         EXECUTE format('SELECT EXISTS (SELECT FROM %I WHERE sealed_in IS NULL)', month) INTO unsealed;
         IF unsealed THEN
           EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', month);
           CONTINUE;
         END IF;
         EXECUTE format('ALTER TABLE audit_entries DETACH PARTITION %I', month);
         EXECUTE format('DROP TABLE %I', month);
         dropped := dropped + 1;
       END LOOP;
       RETURN dropped;
     END $$`,
  `REVOKE ALL ON FUNCTION audit_prepare_months(integer), audit_drop_months(date) FROM PUBLIC`,
  `GRANT EXECUTE ON FUNCTION audit_prepare_months(integer), audit_drop_months(date) TO fitting_worker`,
  `SELECT audit_prepare_months(3)`,
];

const undo = [
  'DROP FUNCTION audit_prepare_months(integer), audit_drop_months(date)',
  'DROP POLICY audit_seals_of_owner ON audit_seals',
  'ALTER TABLE audit_seals DROP COLUMN month, DROP COLUMN entries_hash, DROP COLUMN lets_go',
  ...replaced(false, 'studio_id, id', {}),
];
