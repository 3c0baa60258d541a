import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * The visit as it goes: measurements that can be withdrawn, timers and place, changes with the rider's response,
 * complaints on the bike; and every write as an operation, whether it came at once or later from a device.
 */
export class SessionFlow1764000011100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE session_operations, session_complaints, fit_changes, stage_spans');
    await runner.query(
      `ALTER TABLE fit_sessions DROP COLUMN place_stage, DROP COLUMN place_note, DROP COLUMN place_version,
         DROP COLUMN place_device_id`,
    );
    await runner.query('ALTER TABLE baselines DROP COLUMN version, DROP COLUMN device_id');
    await runner.query(
      `ALTER TABLE measurements DROP COLUMN typed, DROP COLUMN taken_at, DROP COLUMN corrects_id,
         DROP COLUMN withdrawn_at, DROP COLUMN withdrawn_by, DROP COLUMN withdrawal_reason`,
    );
  }
}

const stages = `('interview', 'bench', 'on_the_bike', 'changes', 'hand_over')`;

const partOfSession = (table: string, columns: string): string[] => [
  `CREATE TABLE ${table} (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     fit_session_id uuid NOT NULL,
     ${columns},
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT ${table}_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT ${table}_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions
   )`,
  ...tenantTable(table),
];

const keptOnceSigned = (table: string): string =>
  `CREATE TRIGGER ${table}_kept_once_signed BEFORE INSERT OR UPDATE OR DELETE ON ${table}
     FOR EACH ROW EXECUTE FUNCTION keep_signed_part()`;

const statements = [
  `ALTER TABLE measurements
     ADD COLUMN typed text[],
     ADD COLUMN taken_at timestamptz NOT NULL DEFAULT app_now(),
     ADD COLUMN corrects_id uuid,
     ADD COLUMN withdrawn_at timestamptz,
     ADD COLUMN withdrawn_by uuid,
     ADD COLUMN withdrawal_reason text,
     ADD CONSTRAINT measurements_corrects_id_fkey FOREIGN KEY (studio_id, corrects_id) REFERENCES measurements,
     ADD CONSTRAINT measurements_withdrawn_by_fkey FOREIGN KEY (studio_id, withdrawn_by) REFERENCES users,
     ADD CONSTRAINT measurements_corrected_once UNIQUE (studio_id, corrects_id),
     ADD CONSTRAINT measurements_withdrawal_whole CHECK (
       (withdrawn_at IS NULL) = (withdrawn_by IS NULL) AND (withdrawn_at IS NULL) = (withdrawal_reason IS NULL))`,

  `ALTER TABLE baselines
     ADD COLUMN version integer NOT NULL DEFAULT 1,
     ADD COLUMN device_id uuid`,

  `ALTER TABLE fit_sessions
     ADD COLUMN place_stage text CONSTRAINT fit_sessions_place_stage_known CHECK (place_stage IN ${stages}),
     ADD COLUMN place_note text,
     ADD COLUMN place_version integer NOT NULL DEFAULT 0,
     ADD COLUMN place_device_id uuid`,

  ...partOfSession(
    'stage_spans',
    `stage text NOT NULL CONSTRAINT stage_spans_stage_known CHECK (stage IN ${stages}),
     started_at timestamptz NOT NULL,
     started_by uuid NOT NULL,
     stopped_at timestamptz,
     stopped_by uuid,
     CONSTRAINT stage_spans_started_by_fkey FOREIGN KEY (studio_id, started_by) REFERENCES users,
     CONSTRAINT stage_spans_stopped_by_fkey FOREIGN KEY (studio_id, stopped_by) REFERENCES users,
     CONSTRAINT stage_spans_stop_whole CHECK ((stopped_at IS NULL) = (stopped_by IS NULL)),
     CONSTRAINT stage_spans_in_order CHECK (started_at <= stopped_at)`,
  ),
  `CREATE INDEX stage_spans_session ON stage_spans (studio_id, fit_session_id)`,
  `CREATE UNIQUE INDEX stage_spans_one_running ON stage_spans (studio_id, fit_session_id, stage)
     WHERE stopped_at IS NULL`,
  keptOnceSigned('stage_spans'),

  ...partOfSession(
    'fit_changes',
    `number integer NOT NULL,
     items jsonb NOT NULL,
     several_at_once boolean NOT NULL,
     why text NOT NULL,
     made_by uuid NOT NULL,
     made_at timestamptz NOT NULL,
     response_version integer NOT NULL DEFAULT 0,
     response_device_id uuid,
     responded_at timestamptz,
     comfort smallint CONSTRAINT fit_changes_comfort_range CHECK (comfort BETWEEN 0 AND 100),
     pains jsonb,
     remarks text,
     power_w double precision,
     heart_rate_bpm double precision,
     CONSTRAINT fit_changes_made_by_fkey FOREIGN KEY (studio_id, made_by) REFERENCES users,
     CONSTRAINT fit_changes_number_once UNIQUE (studio_id, fit_session_id, number),
     CONSTRAINT fit_changes_several_marked CHECK (several_at_once = (jsonb_array_length(items) > 1)),
     CONSTRAINT fit_changes_response_whole CHECK ((response_version = 0) = (responded_at IS NULL))`,
  ),
  keptOnceSigned('fit_changes'),

  ...partOfSession(
    'session_complaints',
    `screening_id uuid NOT NULL,
     change_id uuid,
     remarks text,
     sites text[] NOT NULL,
     told_by uuid NOT NULL,
     told_at timestamptz NOT NULL,
     CONSTRAINT session_complaints_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT session_complaints_change_id_fkey FOREIGN KEY (studio_id, change_id) REFERENCES fit_changes,
     CONSTRAINT session_complaints_told_by_fkey FOREIGN KEY (studio_id, told_by) REFERENCES users`,
  ),
  `CREATE INDEX session_complaints_session ON session_complaints (studio_id, fit_session_id)`,
  keptOnceSigned('session_complaints'),

  // Not kept once signed: what a device sends too late is answered for good, too.
  ...partOfSession(
    'session_operations',
    `number integer,
     device_id uuid,
     sequence integer CONSTRAINT session_operations_sequence_positive CHECK (sequence > 0),
     kind text NOT NULL,
     payload jsonb NOT NULL,
     made_at timestamptz NOT NULL,
     sent_by uuid NOT NULL,
     state text NOT NULL
       CONSTRAINT session_operations_state_known CHECK (state IN ('waiting', 'applied', 'refused', 'conflict')),
     answer jsonb,
     CONSTRAINT session_operations_sent_by_fkey FOREIGN KEY (studio_id, sent_by) REFERENCES users,
     CONSTRAINT session_operations_number_once UNIQUE (studio_id, fit_session_id, number),
     CONSTRAINT session_operations_sequence_once UNIQUE (studio_id, fit_session_id, device_id, sequence),
     CONSTRAINT session_operations_of_device CHECK ((device_id IS NULL) = (sequence IS NULL)),
     CONSTRAINT session_operations_settled_whole CHECK (
       (state = 'waiting') = (number IS NULL) AND (state = 'waiting') = (answer IS NULL))`,
  ),
];
