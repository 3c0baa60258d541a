import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** The week's hours and the days that differ, of studio, site, room and person. */
export class OpeningHours1764000006000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE hours_exceptions, weekly_hours');
  }
}

const ownedBy = (table: string): string => `
     staff_id uuid,
     room_id uuid,
     site_id uuid,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT ${table}_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT ${table}_staff_id_fkey FOREIGN KEY (studio_id, staff_id) REFERENCES users,
     CONSTRAINT ${table}_room_id_fkey FOREIGN KEY (studio_id, room_id) REFERENCES rooms,
     CONSTRAINT ${table}_site_id_fkey FOREIGN KEY (studio_id, site_id) REFERENCES sites,
     CONSTRAINT ${table}_one_owner CHECK (num_nonnulls(staff_id, room_id, site_id) <= 1)`;

const statements = [
  `CREATE TABLE weekly_hours (
     studio_id uuid NOT NULL CONSTRAINT weekly_hours_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     at_site_id uuid,
     weekdays smallint[] NOT NULL
       CONSTRAINT weekly_hours_weekdays_known CHECK (weekdays <@ '{1,2,3,4,5,6,7}' AND weekdays <> '{}'),
     from_minutes integer NOT NULL,
     until_minutes integer NOT NULL,
     breaks jsonb NOT NULL DEFAULT '[]',
     valid_from date NOT NULL,
     valid_until date,
     ${ownedBy('weekly_hours')},
     CONSTRAINT weekly_hours_at_site_id_fkey FOREIGN KEY (studio_id, at_site_id) REFERENCES sites,
     CONSTRAINT weekly_hours_at_site_of_person CHECK (at_site_id IS NULL OR staff_id IS NOT NULL),
     CONSTRAINT weekly_hours_in_order CHECK (0 <= from_minutes AND from_minutes < until_minutes AND until_minutes <= 1440),
     CONSTRAINT weekly_hours_days_in_order CHECK (valid_from <= valid_until)
   )`,
  ...tenantTable('weekly_hours', 'SELECT, INSERT, UPDATE, DELETE'),

  `CREATE TABLE hours_exceptions (
     studio_id uuid NOT NULL CONSTRAINT hours_exceptions_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     kind text NOT NULL CONSTRAINT hours_exceptions_kind_known CHECK (kind IN ('open', 'closed')),
     reason text NOT NULL
       CONSTRAINT hours_exceptions_reason_known CHECK (reason IN ('closure', 'holiday', 'leave', 'other_hours')),
     note text,
     first_day date NOT NULL,
     last_day date NOT NULL,
     from_minutes integer,
     until_minutes integer,
     ${ownedBy('hours_exceptions')},
     CONSTRAINT hours_exceptions_days_in_order CHECK (first_day <= last_day),
     CONSTRAINT hours_exceptions_span_whole CHECK ((from_minutes IS NULL) = (until_minutes IS NULL)),
     CONSTRAINT hours_exceptions_in_order
       CHECK (0 <= from_minutes AND from_minutes < until_minutes AND until_minutes <= 1440)
   )`,
  `CREATE INDEX hours_exceptions_days ON hours_exceptions (studio_id, last_day)`,
  ...tenantTable('hours_exceptions', 'SELECT, INSERT, UPDATE, DELETE'),
];
