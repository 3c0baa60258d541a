import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Secret addresses at which calendar programs read visits. */
export class CalendarFeeds1764000010100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE calendar_feeds');
  }
}

const statements = [
  `CREATE TABLE calendar_feeds (
     studio_id uuid NOT NULL CONSTRAINT calendar_feeds_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     fitter_id uuid,
     room_id uuid,
     secret_hash bytea NOT NULL,
     renewed_at timestamptz,
     revoked_at timestamptz,
     created_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT calendar_feeds_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT calendar_feeds_fitter_id_fkey FOREIGN KEY (studio_id, fitter_id) REFERENCES users,
     CONSTRAINT calendar_feeds_room_id_fkey FOREIGN KEY (studio_id, room_id) REFERENCES rooms,
     CONSTRAINT calendar_feeds_created_by_fkey FOREIGN KEY (studio_id, created_by) REFERENCES users,
     CONSTRAINT calendar_feeds_of_one CHECK ((fitter_id IS NULL) <> (room_id IS NULL))
   )`,
  ...tenantTable('calendar_feeds'),
];
