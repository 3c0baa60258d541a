import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * Shoe work as a case: what was signed and done stays as it was written. What lies on a bench to cure, of a visit or of a
 * case, is kept in one table, so that one exclusion constraint speaks of both.
 */
export class ShoeWork1764000021000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undo) await runner.query(statement);
  }
}

const states = `('opened', 'consented', 'in_work', 'curing', 'to_collect', 'collected', 'done', 'abandoned')`;
const takesTime = `('held', 'booked', 'checked_in', 'completed', 'no_show')`;

/** A table whose rows belong to a case and say who wrote them. */
const partOfCase = (table: string, columns: string, by: string, privileges = 'SELECT, INSERT'): string[] => [
  `CREATE TABLE ${table} (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     shoe_work_id uuid NOT NULL,
     ${columns},
     ${by} uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT ${table}_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT ${table}_shoe_work_id_fkey FOREIGN KEY (studio_id, shoe_work_id) REFERENCES shoe_works,
     CONSTRAINT ${table}_${by}_fkey FOREIGN KEY (studio_id, ${by}) REFERENCES users
   )`,
  ...tenantTable(table, privileges),
];

/** Keeps the bench time of a visit or a case as its row says; `visit` leads to the visit it is part of. */
const benchTimesOf = (table: string, takes: string, visit: string): string[] => [
  `CREATE FUNCTION ${table}_take_bench() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       DELETE FROM bench_times WHERE studio_id = NEW.studio_id AND id = NEW.id;
       IF NEW.bench_id IS NOT NULL AND ${takes} THEN
         INSERT INTO bench_times (studio_id, id, bench_id, during, visit_id)
         VALUES (NEW.studio_id, NEW.id, NEW.bench_id, NEW.curing, ${visit});
       END IF;
       RETURN NULL;
     END $$`,
  `CREATE TRIGGER ${table}_take_bench_anew AFTER INSERT ON ${table}
     FOR EACH ROW WHEN (NEW.bench_id IS NOT NULL) EXECUTE FUNCTION ${table}_take_bench()`,
  `CREATE TRIGGER ${table}_take_bench AFTER UPDATE OF bench_id, curing, state ON ${table}
     FOR EACH ROW WHEN (OLD.bench_id IS NOT NULL OR NEW.bench_id IS NOT NULL) EXECUTE FUNCTION ${table}_take_bench()`,
];

/** Row-level security binds the owner too; what was booked before has to be seen to be filled in. */
const unbound = (table: string): string => `ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`;
const bound = (table: string): string => `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`;

const statements = [
  `CREATE TABLE bench_times (
     studio_id uuid NOT NULL,
     id uuid NOT NULL,
     bench_id uuid NOT NULL,
     during tstzrange NOT NULL,
     visit_id uuid NOT NULL,
     CONSTRAINT bench_times_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT bench_times_bench_id_fkey FOREIGN KEY (studio_id, bench_id) REFERENCES benches,
     CONSTRAINT bench_times_free EXCLUDE USING gist
       (studio_id WITH =, bench_id WITH =, visit_id WITH <>, during WITH &&)
   )`,
  ...tenantTable('bench_times', 'SELECT, INSERT, DELETE'),
  unbound('appointments'),
  unbound('bench_times'),
  `INSERT INTO bench_times (studio_id, id, bench_id, during, visit_id)
     SELECT studio_id, id, bench_id, curing, id FROM appointments
      WHERE bench_id IS NOT NULL AND state IN ${takesTime}`,
  bound('appointments'),
  bound('bench_times'),
  ...benchTimesOf('appointments', `NEW.state IN ${takesTime}`, 'NEW.id'),

  `CREATE TABLE shoe_works (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     fit_session_id uuid NOT NULL,
     shoe_id uuid NOT NULL,
     appointment_id uuid,
     way text NOT NULL,
     fixing text NOT NULL
       CONSTRAINT shoe_works_fixing_known CHECK (fixing IN ('drilled', 'bonded', 'drilled_and_bonded')),
     shoe_facts jsonb NOT NULL,
     procedure_version text NOT NULL,
     state text NOT NULL DEFAULT 'opened' CONSTRAINT shoe_works_state_known CHECK (state IN ${states}),
     opened_by uuid NOT NULL,
     begun_at timestamptz,
     begun_by uuid,
     bench_id uuid,
     curing tstzrange,
     cure_source text,
     to_collect_at timestamptz,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT shoe_works_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT shoe_works_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT shoe_works_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT shoe_works_shoe_id_fkey FOREIGN KEY (studio_id, shoe_id) REFERENCES shoes,
     CONSTRAINT shoe_works_appointment_id_fkey FOREIGN KEY (studio_id, appointment_id) REFERENCES appointments,
     CONSTRAINT shoe_works_opened_by_fkey FOREIGN KEY (studio_id, opened_by) REFERENCES users,
     CONSTRAINT shoe_works_begun_by_fkey FOREIGN KEY (studio_id, begun_by) REFERENCES users,
     CONSTRAINT shoe_works_bench_id_fkey FOREIGN KEY (studio_id, bench_id) REFERENCES benches,
     CONSTRAINT shoe_works_begun_whole CHECK ((begun_at IS NULL) = (begun_by IS NULL)),
     CONSTRAINT shoe_works_curing_whole
       CHECK ((curing IS NULL) = (cure_source IS NULL) AND (bench_id IS NULL OR curing IS NOT NULL)
              AND (curing IS NULL OR to_collect_at = upper(curing))),
     CONSTRAINT shoe_works_collect_after_work
       CHECK (to_collect_at IS NOT NULL OR state NOT IN ('curing', 'to_collect', 'collected', 'done'))
   )`,
  ...tenantTable('shoe_works'),
  `CREATE INDEX shoe_works_client ON shoe_works (studio_id, client_id, id)`,
  `CREATE INDEX shoe_works_fit_session ON shoe_works (studio_id, fit_session_id, id)`,
  `CREATE INDEX shoe_works_to_collect ON shoe_works (studio_id, to_collect_at) WHERE state IN ('curing', 'to_collect')`,
  `CREATE INDEX shoe_works_begun ON shoe_works (studio_id, begun_at)`,
  `CREATE UNIQUE INDEX shoe_works_one_open ON shoe_works (studio_id, shoe_id) WHERE state NOT IN ('done', 'abandoned')`,
  ...benchTimesOf('shoe_works', `NEW.state <> 'abandoned'`, 'coalesce(NEW.appointment_id, NEW.id)'),

  ...partOfCase(
    'shoe_work_consents',
    `text_version text NOT NULL,
     language text NOT NULL,
     signed_name text NOT NULL,
     guardian_id uuid,
     CONSTRAINT shoe_work_consents_once UNIQUE (studio_id, shoe_work_id),
     CONSTRAINT shoe_work_consents_guardian_id_fkey FOREIGN KEY (studio_id, guardian_id) REFERENCES clients`,
    'taken_by',
  ),
  ...partOfCase(
    'shoe_work_steps',
    `step text NOT NULL,
     shoe text NOT NULL CONSTRAINT shoe_work_steps_shoe_known CHECK (shoe IN ('left', 'right')),
     "values" jsonb NOT NULL,
     CONSTRAINT shoe_work_steps_once UNIQUE (studio_id, shoe_work_id, shoe, step)`,
    'done_by',
  ),
  `CREATE TABLE shoe_work_photos (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     step_id uuid NOT NULL,
     file_id uuid NOT NULL,
     CONSTRAINT shoe_work_photos_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT shoe_work_photos_step_id_fkey FOREIGN KEY (studio_id, step_id) REFERENCES shoe_work_steps,
     CONSTRAINT shoe_work_photos_file_id_fkey FOREIGN KEY (studio_id, file_id) REFERENCES files,
     CONSTRAINT shoe_work_photos_once UNIQUE (studio_id, step_id, file_id)
   )`,
  ...tenantTable('shoe_work_photos', 'SELECT, INSERT'),
  `CREATE INDEX shoe_work_photos_file ON shoe_work_photos (studio_id, file_id)`,
  ...partOfCase(
    'shoe_work_parts',
    `part_id uuid NOT NULL,
     quantity integer NOT NULL CONSTRAINT shoe_work_parts_quantity_range CHECK (quantity BETWEEN 1 AND 100),
     CONSTRAINT shoe_work_parts_once UNIQUE (studio_id, shoe_work_id, part_id),
     CONSTRAINT shoe_work_parts_part_id_fkey FOREIGN KEY (studio_id, part_id) REFERENCES parts`,
    'recorded_by',
    'SELECT, INSERT, DELETE',
  ),
  ...partOfCase(
    'shoe_work_changes',
    `state text NOT NULL CONSTRAINT shoe_work_changes_state_known CHECK (state IN ${states}),
     reason text,
     CONSTRAINT shoe_work_changes_abandoned_for_a_reason CHECK ((state = 'abandoned') = (reason IS NOT NULL))`,
    'changed_by',
  ),
  `CREATE INDEX shoe_work_changes_case ON shoe_work_changes (studio_id, shoe_work_id, id)`,
];

const undo = [
  'DROP TRIGGER appointments_take_bench_anew ON appointments',
  'DROP TRIGGER appointments_take_bench ON appointments',
  `DROP TABLE shoe_work_changes, shoe_work_parts, shoe_work_photos, shoe_work_steps, shoe_work_consents, shoe_works,
     bench_times`,
  'DROP FUNCTION appointments_take_bench(), shoe_works_take_bench()',
];
