import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** What a visit takes with its buffers and its curing, its states, its history, and visits that belong together. */
export class Appointments1764000007000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undo) await runner.query(statement);
  }
}

/** Row-level security binds the owner too; what was booked before has to be seen to be filled in. */
const unbound = (table: string, statement: string): string[] => [
  `ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`,
  statement,
  `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`,
];

const takesTime = `(state IN ('held', 'booked', 'checked_in', 'completed', 'no_show'))`;

const statements = [
  `ALTER TABLE services
     ADD cancellation_notice_hours integer NOT NULL DEFAULT 24
       CONSTRAINT services_cancellation_notice_range CHECK (cancellation_notice_hours BETWEEN 0 AND 720)`,

  `ALTER TABLE appointments
     ADD occupied tstzrange,
     ADD bench_id uuid,
     ADD curing tstzrange,
     ADD hold_expires_at timestamptz,
     ADD cancelled_by text CONSTRAINT appointments_cancelled_by_known CHECK (cancelled_by IN ('client', 'studio')),
     ADD cancelled_late boolean,
     ADD series_id uuid,
     ADD series_position integer,
     DROP CONSTRAINT appointments_state_known,
     DROP CONSTRAINT appointments_fitter_free,
     DROP CONSTRAINT appointments_room_free`,
  ...unbound('appointments', 'UPDATE appointments SET occupied = during'),
  `ALTER TABLE appointments
     ALTER occupied SET NOT NULL,
     ADD CONSTRAINT appointments_state_known CHECK
       (state IN ('held', 'booked', 'checked_in', 'completed', 'no_show', 'cancelled', 'lapsed')),
     ADD CONSTRAINT appointments_occupied_holds_visit CHECK (occupied @> during),
     ADD CONSTRAINT appointments_hold_ends CHECK (state <> 'held' OR hold_expires_at IS NOT NULL),
     ADD CONSTRAINT appointments_curing_whole CHECK ((bench_id IS NULL) = (curing IS NULL)),
     ADD CONSTRAINT appointments_series_whole CHECK ((series_id IS NULL) = (series_position IS NULL)),
     ADD CONSTRAINT appointments_series_position_once UNIQUE (studio_id, series_id, series_position),
     ADD CONSTRAINT appointments_bench_id_fkey FOREIGN KEY (studio_id, bench_id) REFERENCES benches,
     ADD CONSTRAINT appointments_fitter_free
       EXCLUDE USING gist (studio_id WITH =, fitter_id WITH =, occupied WITH &&) WHERE ${takesTime},
     ADD CONSTRAINT appointments_room_free
       EXCLUDE USING gist (studio_id WITH =, room_id WITH =, occupied WITH &&) WHERE ${takesTime},
     ADD CONSTRAINT appointments_bench_free
       EXCLUDE USING gist (studio_id WITH =, bench_id WITH =, curing WITH &&) WHERE ${takesTime}`,
  `CREATE INDEX appointments_occupied ON appointments USING gist (studio_id, occupied)`,

  `CREATE TABLE appointment_changes (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     appointment_id uuid NOT NULL,
     action text NOT NULL,
     state text NOT NULL,
     during tstzrange NOT NULL,
     fitter_id uuid NOT NULL,
     room_id uuid NOT NULL,
     bench_id uuid,
     reason text,
     changed_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT appointment_changes_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT appointment_changes_appointment_id_fkey FOREIGN KEY (studio_id, appointment_id) REFERENCES appointments,
     CONSTRAINT appointment_changes_changed_by_fkey FOREIGN KEY (studio_id, changed_by) REFERENCES users
   )`,
  `CREATE INDEX appointment_changes_appointment ON appointment_changes (studio_id, appointment_id, id)`,
  ...tenantTable('appointment_changes', 'SELECT, INSERT'),
];

const undo = [
  'DROP TABLE appointment_changes',
  `ALTER TABLE appointments
     DROP CONSTRAINT appointments_fitter_free, DROP CONSTRAINT appointments_room_free,
     DROP CONSTRAINT appointments_bench_free, DROP CONSTRAINT appointments_state_known,
     DROP CONSTRAINT appointments_hold_ends`,
  ...unbound(
    'appointments',
    `UPDATE appointments SET state = CASE WHEN state IN ('cancelled', 'lapsed') THEN 'cancelled' ELSE 'booked' END`,
  ),
  'DROP INDEX appointments_occupied',
  `ALTER TABLE appointments
     DROP COLUMN occupied, DROP COLUMN bench_id, DROP COLUMN curing, DROP COLUMN hold_expires_at,
     DROP COLUMN cancelled_by, DROP COLUMN cancelled_late, DROP COLUMN series_id, DROP COLUMN series_position,
     ADD CONSTRAINT appointments_state_known CHECK (state IN ('booked', 'cancelled')),
     ADD CONSTRAINT appointments_fitter_free
       EXCLUDE USING gist (studio_id WITH =, fitter_id WITH =, during WITH &&) WHERE (state <> 'cancelled'),
     ADD CONSTRAINT appointments_room_free
       EXCLUDE USING gist (studio_id WITH =, room_id WITH =, during WITH &&) WHERE (state <> 'cancelled')`,
  'ALTER TABLE services DROP COLUMN cancellation_notice_hours',
];
