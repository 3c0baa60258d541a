import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** What somebody of the studio has to see to, and who did what with it. It holds no text: nothing medical can get in. */
export class Tasks1764000009000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE task_changes, tasks');
  }
}

const statements = [
  `CREATE TABLE tasks (
     studio_id uuid NOT NULL CONSTRAINT tasks_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     kind text NOT NULL CONSTRAINT tasks_kind_form CHECK (kind ~ '^[a-z]+(_[a-z]+)*$'),
     role text NOT NULL CONSTRAINT tasks_role_known CHECK (role IN ('front_desk', 'fitter', 'owner')),
     client_id uuid,
     subject_id uuid NOT NULL,
     due_at timestamptz NOT NULL DEFAULT app_now(),
     state text NOT NULL DEFAULT 'open' CONSTRAINT tasks_state_known CHECK (state IN ('open', 'snoozed', 'done')),
     snoozed_until timestamptz,
     assigned_to uuid,
     done_at timestamptz,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT tasks_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT tasks_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT tasks_assigned_to_fkey FOREIGN KEY (studio_id, assigned_to) REFERENCES users,
     CONSTRAINT tasks_snooze_ends CHECK ((state = 'snoozed') = (snoozed_until IS NOT NULL)),
     CONSTRAINT tasks_done_whole CHECK ((state = 'done') = (done_at IS NOT NULL))
   )`,
  `CREATE UNIQUE INDEX tasks_one_open ON tasks (studio_id, kind, subject_id) WHERE state <> 'done'`,
  `CREATE INDEX tasks_subject ON tasks (studio_id, kind, subject_id, due_at)`,
  `CREATE INDEX tasks_inbox ON tasks (studio_id, due_at, id) WHERE state <> 'done'`,
  `CREATE INDEX tasks_client ON tasks (studio_id, client_id) WHERE state <> 'done'`,
  ...tenantTable('tasks'),

  `CREATE TABLE task_changes (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     task_id uuid NOT NULL,
     action text NOT NULL,
     state text NOT NULL,
     snoozed_until timestamptz,
     assigned_to uuid,
     changed_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT task_changes_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT task_changes_task_id_fkey FOREIGN KEY (studio_id, task_id) REFERENCES tasks,
     CONSTRAINT task_changes_assigned_to_fkey FOREIGN KEY (studio_id, assigned_to) REFERENCES users,
     CONSTRAINT task_changes_changed_by_fkey FOREIGN KEY (studio_id, changed_by) REFERENCES users
   )`,
  `CREATE INDEX task_changes_task ON task_changes (studio_id, task_id, id)`,
  ...tenantTable('task_changes', 'SELECT, INSERT'),
];
