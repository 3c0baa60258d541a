import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * The cleat plan becomes one of several kinds of plan, and a plan stays as it was made. Numbered after the migration
 * that adds a column to the table by its older name.
 */
export class Plans1764000020900 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undo) await runner.query(statement);
  }
}

const runtimeRoles = 'fitting_api, fitting_worker';
const choice = ['chosen_option', 'chosen_because', 'chosen_by', 'chosen_at'];
const choiceNames = `ARRAY['${choice.join(`', '`)}']`;

const renames = (from: string, to: string): string[] => [
  `ALTER TABLE ${from} RENAME TO ${to}`,
  ...['pkey', 'fit_session_id_fkey', 'side_known', 'choice_whole'].map(
    (constraint) => `ALTER TABLE ${to} RENAME CONSTRAINT ${from}_${constraint} TO ${to}_${constraint}`,
  ),
  `ALTER INDEX ${from}_session RENAME TO ${to}_session`,
  `ALTER POLICY ${from}_of_studio ON ${to} RENAME TO ${to}_of_studio`,
  `ALTER TRIGGER ${from}_kept_once_signed ON ${to} RENAME TO ${to}_kept_once_signed`,
];

const statements = [
  ...renames('cleat_plans', 'plans'),
  `ALTER TABLE plans
     ADD kind text NOT NULL DEFAULT 'cleat' CONSTRAINT plans_kind_form CHECK (kind ~ '^[a-z]+(_[a-z]+)*$'),
     ADD added jsonb NOT NULL DEFAULT '{}',
     ADD planned_by uuid,
     ADD chosen_by uuid,
     ADD chosen_at timestamptz,
     ALTER side DROP NOT NULL,
     ADD CONSTRAINT plans_cleat_has_side CHECK (kind <> 'cleat' OR side IS NOT NULL),
     ADD CONSTRAINT plans_chosen_at_with_by CHECK ((chosen_by IS NULL) = (chosen_at IS NULL)),
     ADD CONSTRAINT plans_planned_by_fkey FOREIGN KEY (studio_id, planned_by) REFERENCES users,
     ADD CONSTRAINT plans_chosen_by_fkey FOREIGN KEY (studio_id, chosen_by) REFERENCES users`,
  'ALTER TABLE plans ALTER kind DROP DEFAULT',
  `CREATE FUNCTION keep_plan() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       IF OLD.chosen_option IS NOT NULL OR to_jsonb(NEW) - ${choiceNames} <> to_jsonb(OLD) - ${choiceNames} THEN
         RAISE EXCEPTION 'a plan stays as it was made'
           USING ERRCODE = 'check_violation', CONSTRAINT = 'plans_stay_as_made';
       END IF;
       RETURN NEW;
     END $$`,
  `CREATE TRIGGER plans_stay_as_made BEFORE UPDATE ON plans FOR EACH ROW EXECUTE FUNCTION keep_plan()`,
  `REVOKE UPDATE ON plans FROM ${runtimeRoles}`,
  `GRANT UPDATE (${choice.join(', ')}) ON plans TO ${runtimeRoles}`,
];

const undo = [
  'DROP TRIGGER plans_stay_as_made ON plans',
  'DROP FUNCTION keep_plan()',
  // What the older table has no place for is lost: plans of other kinds.
  'ALTER TABLE plans DISABLE TRIGGER plans_kept_once_signed',
  'ALTER TABLE plans NO FORCE ROW LEVEL SECURITY',
  `DELETE FROM plans WHERE kind <> 'cleat'`,
  'ALTER TABLE plans FORCE ROW LEVEL SECURITY',
  'ALTER TABLE plans ENABLE TRIGGER plans_kept_once_signed',
  `ALTER TABLE plans DROP COLUMN kind, DROP COLUMN added, DROP COLUMN planned_by, DROP COLUMN chosen_by,
     DROP COLUMN chosen_at, ALTER side SET NOT NULL`,
  `REVOKE UPDATE (chosen_option, chosen_because) ON plans FROM ${runtimeRoles}`,
  `GRANT UPDATE ON plans TO ${runtimeRoles}`,
  ...renames('plans', 'cleat_plans'),
];
