import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * Follow-ups by plans that are data: a studio's own plans in versions; each follow-up with the step it was promised by,
 * what was changed about it and every answer to it; the activities a rider named before.
 */
export class FollowUpPlans1764000014000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undoing) await runner.query(statement);
  }
}

/** What the follow-ups of before were promised by: nine in the morning, two and six weeks after, by mail. */
const stepOfBefore = (week: string): string => `jsonb_build_object(
  'id', 'week-' || ${week}, 'after', jsonb_build_object('weeks', ${week}),
  'window', jsonb_build_object('from', '09:00', 'until', '19:00'), 'channel', 'mail', 'tell', 'fitter',
  'questionSet', jsonb_build_object('id', 'since-the-fit', 'version', '2'), 'countsAsOutcome', true,
  'unanswered', jsonb_build_array(
    jsonb_build_object('afterDays', 4, 'action', 'remind'), jsonb_build_object('afterDays', 9, 'action', 'phone'),
    jsonb_build_object('afterDays', 21, 'action', 'close')))`;

const statements = [
  `CREATE TABLE follow_up_plans (
     studio_id uuid NOT NULL CONSTRAINT follow_up_plans_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     plan_id text NOT NULL,
     version integer NOT NULL,
     name text NOT NULL,
     steps jsonb NOT NULL,
     created_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT follow_up_plans_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT follow_up_plans_created_by_fkey FOREIGN KEY (studio_id, created_by) REFERENCES users,
     CONSTRAINT follow_up_plans_version_once UNIQUE (studio_id, plan_id, version)
   )`,
  ...tenantTable('follow_up_plans', 'SELECT, INSERT'),

  `ALTER TABLE follow_ups
     DROP CONSTRAINT follow_ups_once_per_week,
     DROP CONSTRAINT follow_ups_state_known,
     ADD CONSTRAINT follow_ups_state_known CHECK (state IN
       ('scheduled', 'sent', 'reminded', 'phoned', 'answered', 'unanswered', 'cancelled', 'skipped')),
     ADD COLUMN plan_id text,
     ADD COLUMN plan_version integer,
     ADD COLUMN plan_by_person boolean NOT NULL DEFAULT false,
     ADD COLUMN step_id text,
     ADD COLUMN step jsonb,
     ADD COLUMN from_appointment_id uuid,
     ADD COLUMN days_after smallint,
     ADD COLUMN by_hand boolean NOT NULL DEFAULT false,
     ADD COLUMN counts_as_outcome boolean NOT NULL DEFAULT true,
     ADD COLUMN state_reason text,
     ADD COLUMN version integer NOT NULL DEFAULT 1,
     ADD COLUMN reminded_at timestamptz,
     ADD COLUMN phoned_at timestamptz,
     ADD COLUMN closed_at timestamptz,
     ADD COLUMN draft jsonb NOT NULL DEFAULT '{}',
     ADD COLUMN urgent_rules text[] NOT NULL DEFAULT '{}'`,
  // The owner of the schema sees every studio only while row-level security is not forced on it.
  `ALTER TABLE follow_ups NO FORCE ROW LEVEL SECURITY`,
  `UPDATE follow_ups SET plan_id = 'small-change', plan_version = 1, step_id = 'week-' || week,
     step = ${stepOfBefore('week')}, days_after = week * 7`,
  `ALTER TABLE follow_ups FORCE ROW LEVEL SECURITY`,
  `ALTER TABLE follow_ups
     ALTER COLUMN step_id SET NOT NULL,
     ALTER COLUMN step SET NOT NULL,
     ALTER COLUMN days_after SET NOT NULL,
     ADD CONSTRAINT follow_ups_plan_whole CHECK ((plan_id IS NULL) = (plan_version IS NULL)),
     ADD CONSTRAINT follow_ups_once_per_step UNIQUE (studio_id, fit_session_id, step_id),
     ADD CONSTRAINT follow_ups_from_appointment_id_fkey
       FOREIGN KEY (studio_id, from_appointment_id) REFERENCES appointments`,
  `CREATE INDEX follow_ups_appointment ON follow_ups (studio_id, from_appointment_id)
     WHERE from_appointment_id IS NOT NULL`,

  `CREATE TABLE follow_up_changes (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     follow_up_id uuid NOT NULL,
     kind text NOT NULL CONSTRAINT follow_up_changes_kind_known
       CHECK (kind IN ('move', 'skip', 'add', 'plan', 'appointment', 'consent')),
     reason text,
     due_before timestamptz,
     due_after timestamptz,
     state_after text NOT NULL,
     changed_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT follow_up_changes_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT follow_up_changes_follow_up_id_fkey FOREIGN KEY (studio_id, follow_up_id) REFERENCES follow_ups,
     CONSTRAINT follow_up_changes_changed_by_fkey FOREIGN KEY (studio_id, changed_by) REFERENCES users
   )`,
  `CREATE INDEX follow_up_changes_follow_up ON follow_up_changes (studio_id, follow_up_id, id)`,
  ...tenantTable('follow_up_changes', 'SELECT, INSERT'),

  `CREATE TABLE follow_up_answers (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     follow_up_id uuid NOT NULL,
     question text NOT NULL,
     answer jsonb NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT follow_up_answers_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT follow_up_answers_follow_up_id_fkey FOREIGN KEY (studio_id, follow_up_id) REFERENCES follow_ups,
     CONSTRAINT follow_up_answers_once UNIQUE (studio_id, follow_up_id, question)
   )`,
  ...tenantTable('follow_up_answers', 'SELECT, INSERT'),

  `CREATE TABLE chosen_activities (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     fit_session_id uuid NOT NULL,
     position smallint NOT NULL CONSTRAINT chosen_activities_up_to_three CHECK (position BETWEEN 1 AND 3),
     activity text NOT NULL,
     ability smallint NOT NULL CONSTRAINT chosen_activities_ability_range CHECK (ability BETWEEN 0 AND 10),
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT chosen_activities_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT chosen_activities_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT chosen_activities_once_per_position UNIQUE (studio_id, fit_session_id, position)
   )`,
  ...tenantTable('chosen_activities', 'SELECT, INSERT, UPDATE, DELETE'),
  `CREATE TRIGGER chosen_activities_kept_once_signed BEFORE INSERT OR UPDATE OR DELETE ON chosen_activities
     FOR EACH ROW EXECUTE FUNCTION keep_signed_part()`,
];

/** Follow-ups in the newer states, or at other times than whole weeks, stand in the way of going back. */
const undoing = [
  `DROP TABLE chosen_activities, follow_up_answers, follow_up_changes, follow_up_plans`,
  `ALTER TABLE follow_ups DROP CONSTRAINT follow_ups_once_per_step, DROP CONSTRAINT follow_ups_plan_whole,
     DROP CONSTRAINT follow_ups_state_known,
     ADD CONSTRAINT follow_ups_state_known CHECK (state IN ('scheduled', 'sent', 'answered', 'cancelled')),
     ADD CONSTRAINT follow_ups_once_per_week UNIQUE (studio_id, fit_session_id, week),
     DROP COLUMN urgent_rules, DROP COLUMN draft, DROP COLUMN closed_at, DROP COLUMN phoned_at, DROP COLUMN reminded_at,
     DROP COLUMN version, DROP COLUMN state_reason, DROP COLUMN counts_as_outcome, DROP COLUMN by_hand,
     DROP COLUMN days_after, DROP COLUMN from_appointment_id, DROP COLUMN step, DROP COLUMN step_id,
     DROP COLUMN plan_by_person, DROP COLUMN plan_version, DROP COLUMN plan_id`,
];
