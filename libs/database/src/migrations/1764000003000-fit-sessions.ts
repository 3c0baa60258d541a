import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Bikes, shoes, the session record and its lock once signed, follow-ups, outcomes. */
export class FitSessions1764000003000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      `DROP TABLE outcome_summaries, follow_ups, amendments, cleat_plans, positions, measurements, baselines,
         fit_sessions, shoes, bikes`,
    );
    await runner.query('DROP FUNCTION keep_signed_session(), keep_signed_part()');
  }
}

/** Columns and keys every part of a session shares. */
const partOfSession = (table: string, columns: string): string =>
  `CREATE TABLE ${table} (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     fit_session_id uuid NOT NULL,
     ${columns},
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT ${table}_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT ${table}_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions
   )`;

const keptOnceSigned = (table: string): string =>
  `CREATE TRIGGER ${table}_kept_once_signed BEFORE INSERT OR UPDATE OR DELETE ON ${table}
     FOR EACH ROW EXECUTE FUNCTION keep_signed_part()`;

const statements = [
  `CREATE TABLE bikes (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     name text NOT NULL,
     crank_length_mm double precision NOT NULL,
     seat_tube_angle_deg double precision NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT bikes_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT bikes_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients
   )`,
  `CREATE INDEX bikes_client ON bikes (studio_id, client_id)`,
  ...tenantTable('bikes'),

  `CREATE TABLE shoes (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     name text NOT NULL,
     outer_length_mm double precision NOT NULL,
     hole_pattern text NOT NULL
       CONSTRAINT shoes_hole_pattern_known CHECK (hole_pattern IN ('three_bolt', 'two_bolt', 'four_bolt')),
     slot_front_from_heel_mm double precision NOT NULL,
     slot_rear_from_heel_mm double precision NOT NULL,
     arch_channel boolean NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT shoes_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT shoes_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT shoes_slots_in_order CHECK (
       0 < slot_rear_from_heel_mm AND slot_rear_from_heel_mm <= slot_front_from_heel_mm
       AND slot_front_from_heel_mm < outer_length_mm)
   )`,
  `CREATE INDEX shoes_client ON shoes (studio_id, client_id)`,
  ...tenantTable('shoes'),

  `CREATE TABLE fit_sessions (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     bike_id uuid NOT NULL,
     shoe_id uuid NOT NULL,
     appointment_id uuid,
     fitter_id uuid NOT NULL,
     screening_id uuid NOT NULL,
     version integer NOT NULL DEFAULT 1,
     signed_at timestamptz,
     signed_by uuid,
     content_hash text,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT fit_sessions_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT fit_sessions_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT fit_sessions_bike_id_fkey FOREIGN KEY (studio_id, bike_id) REFERENCES bikes,
     CONSTRAINT fit_sessions_shoe_id_fkey FOREIGN KEY (studio_id, shoe_id) REFERENCES shoes,
     CONSTRAINT fit_sessions_appointment_id_fkey FOREIGN KEY (studio_id, appointment_id) REFERENCES appointments,
     CONSTRAINT fit_sessions_fitter_id_fkey FOREIGN KEY (studio_id, fitter_id) REFERENCES users,
     CONSTRAINT fit_sessions_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT fit_sessions_signed_by_fkey FOREIGN KEY (studio_id, signed_by) REFERENCES users,
     CONSTRAINT fit_sessions_signature_whole
       CHECK ((signed_at IS NULL) = (signed_by IS NULL) AND (signed_at IS NULL) = (content_hash IS NULL))
   )`,
  `CREATE INDEX fit_sessions_client ON fit_sessions (studio_id, client_id)`,
  ...tenantTable('fit_sessions'),
  `CREATE FUNCTION keep_signed_session() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       IF OLD.signed_at IS NOT NULL THEN
         RAISE EXCEPTION 'a signed session is final'
           USING ERRCODE = 'check_violation', CONSTRAINT = 'fit_sessions_signed_is_final';
       END IF;
       RETURN NEW;
     END $$`,
  `CREATE TRIGGER fit_sessions_kept_once_signed BEFORE UPDATE OR DELETE ON fit_sessions
     FOR EACH ROW EXECUTE FUNCTION keep_signed_session()`,

  // FOR SHARE: a part being written and a signature being set wait for each other.
  `CREATE FUNCTION keep_signed_part() RETURNS trigger LANGUAGE plpgsql AS $$
     DECLARE
       part record := CASE WHEN TG_OP = 'DELETE' THEN OLD ELSE NEW END;
       signed timestamptz;
     BEGIN
       SELECT signed_at INTO signed FROM fit_sessions
         WHERE studio_id = part.studio_id AND id = part.fit_session_id FOR SHARE;
       IF signed IS NOT NULL THEN
         RAISE EXCEPTION 'a signed session is final'
           USING ERRCODE = 'check_violation', CONSTRAINT = 'fit_sessions_signed_is_final';
       END IF;
       RETURN part;
     END $$`,

  partOfSession(
    'baselines',
    `pain smallint CONSTRAINT baselines_pain_range CHECK (pain BETWEEN 0 AND 10),
     comfort smallint CONSTRAINT baselines_comfort_range CHECK (comfort BETWEEN 0 AND 100),
     numbness boolean,
     power_20_min_w double precision,
     CONSTRAINT baselines_once UNIQUE (studio_id, fit_session_id)`,
  ),
  ...tenantTable('baselines'),
  keptOnceSigned('baselines'),

  partOfSession(
    'measurements',
    `kind text NOT NULL,
     side text CONSTRAINT measurements_side_known CHECK (side IN ('left', 'right')),
     method text NOT NULL,
     repeats double precision[] NOT NULL,
     unit text NOT NULL,
     mean double precision NOT NULL,
     error double precision NOT NULL,
     warning text,
     taken_by uuid NOT NULL,
     CONSTRAINT measurements_taken_by_fkey FOREIGN KEY (studio_id, taken_by) REFERENCES users`,
  ),
  `CREATE INDEX measurements_session ON measurements (studio_id, fit_session_id)`,
  ...tenantTable('measurements'),
  keptOnceSigned('measurements'),

  partOfSession(
    'positions',
    `stage text NOT NULL CONSTRAINT positions_stage_known CHECK (stage IN ('found', 'left')),
     saddle_height_mm double precision NOT NULL,
     saddle_setback_mm double precision NOT NULL,
     bar_drop_mm double precision NOT NULL,
     bar_reach_mm double precision NOT NULL,
     cleat_behind_mth1_left_mm double precision NOT NULL,
     cleat_behind_mth1_right_mm double precision NOT NULL,
     CONSTRAINT positions_once_per_stage UNIQUE (studio_id, fit_session_id, stage)`,
  ),
  ...tenantTable('positions'),
  keptOnceSigned('positions'),

  partOfSession(
    'cleat_plans',
    `side text NOT NULL CONSTRAINT cleat_plans_side_known CHECK (side IN ('left', 'right')),
     inputs jsonb NOT NULL,
     result jsonb NOT NULL,
     formula_version text NOT NULL,
     chosen_option text,
     chosen_because text,
     CONSTRAINT cleat_plans_choice_whole CHECK ((chosen_option IS NULL) = (chosen_because IS NULL))`,
  ),
  `CREATE INDEX cleat_plans_session ON cleat_plans (studio_id, fit_session_id)`,
  ...tenantTable('cleat_plans'),
  keptOnceSigned('cleat_plans'),

  partOfSession(
    'amendments',
    `text text NOT NULL,
     written_by uuid NOT NULL,
     CONSTRAINT amendments_written_by_fkey FOREIGN KEY (studio_id, written_by) REFERENCES users`,
  ),
  `CREATE INDEX amendments_session ON amendments (studio_id, fit_session_id)`,
  ...tenantTable('amendments', 'SELECT, INSERT'),

  partOfSession(
    'follow_ups',
    `client_id uuid NOT NULL,
     week smallint NOT NULL,
     due_at timestamptz NOT NULL,
     state text NOT NULL DEFAULT 'scheduled'
       CONSTRAINT follow_ups_state_known CHECK (state IN ('scheduled', 'sent', 'answered', 'cancelled')),
     link_hash bytea,
     link_expires_at timestamptz,
     message_id text,
     sent_at timestamptz,
     answered_at timestamptz,
     pain smallint CONSTRAINT follow_ups_pain_range CHECK (pain BETWEEN 0 AND 10),
     comfort smallint CONSTRAINT follow_ups_comfort_range CHECK (comfort BETWEEN 0 AND 100),
     numbness boolean,
     power_20_min_w double precision,
     saddle_height_mm double precision,
     screening_id uuid,
     CONSTRAINT follow_ups_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT follow_ups_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT follow_ups_once_per_week UNIQUE (studio_id, fit_session_id, week)`,
  ),
  `CREATE INDEX follow_ups_client ON follow_ups (studio_id, client_id)`,
  ...tenantTable('follow_ups'),

  partOfSession(
    'outcome_summaries',
    `client_id uuid NOT NULL,
     computed_at timestamptz NOT NULL,
     follow_up_id uuid NOT NULL,
     pain_before smallint,
     pain_after smallint,
     comfort_before smallint,
     comfort_after smallint,
     numbness_before boolean,
     numbness_after boolean,
     power_20_min_before_w double precision,
     power_20_min_after_w double precision,
     saddle_change_predicted_mm double precision,
     saddle_change_left_mm double precision,
     CONSTRAINT outcome_summaries_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT outcome_summaries_follow_up_id_fkey FOREIGN KEY (studio_id, follow_up_id) REFERENCES follow_ups,
     CONSTRAINT outcome_summaries_once UNIQUE (studio_id, fit_session_id)`,
  ),
  ...tenantTable('outcome_summaries'),
];
