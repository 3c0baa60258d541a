import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

const images = `'image/jpeg', 'image/png', 'image/webp'`;

/**
 * Ride recordings a client sends with a follow-up: a file of the client like others, which nobody of the studio
 * uploaded, and what was read from it.
 */
export class RideRecordings1764000023100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE ride_recordings');
    await runner.query('ALTER TABLE files NO FORCE ROW LEVEL SECURITY');
    await runner.query('DELETE FROM files WHERE uploaded_by IS NULL');
    await runner.query('ALTER TABLE files FORCE ROW LEVEL SECURITY');
    await runner.query(
      `ALTER TABLE files
         DROP CONSTRAINT files_uploader_known, DROP CONSTRAINT files_media_type_known, DROP CONSTRAINT files_pixels_whole,
         ALTER COLUMN uploaded_by SET NOT NULL,
         ADD CONSTRAINT files_media_type_known CHECK (media_type IN (${images}, 'application/pdf')),
         ADD CONSTRAINT files_pixels_whole CHECK ((width_px IS NULL) = (height_px IS NULL)
           AND (width_px IS NULL) = (media_type = 'application/pdf'))`,
    );
  }
}

const statements = [
  `ALTER TABLE files
     DROP CONSTRAINT files_media_type_known, DROP CONSTRAINT files_pixels_whole,
     ALTER COLUMN uploaded_by DROP NOT NULL,
     ADD CONSTRAINT files_media_type_known
       CHECK (media_type IN (${images}, 'application/pdf', 'application/octet-stream')),
     ADD CONSTRAINT files_uploader_known CHECK ((uploaded_by IS NULL) = (media_type = 'application/octet-stream')),
     ADD CONSTRAINT files_pixels_whole CHECK ((width_px IS NULL) = (height_px IS NULL)
       AND (width_px IS NOT NULL) = (media_type IN (${images})))`,

  `CREATE TABLE ride_recordings (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     follow_up_id uuid NOT NULL,
     file_id uuid NOT NULL,
     format text NOT NULL CONSTRAINT ride_recordings_format_known CHECK (format IN ('fit', 'tcx', 'gpx', 'csv')),
     started_at timestamptz NOT NULL,
     duration_s integer NOT NULL,
     power_20_min_w double precision,
     power_20_min_words text NOT NULL,
     sprint_peak_w double precision,
     sprint_5_s_w double precision,
     notes jsonb NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT ride_recordings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT ride_recordings_follow_up_id_fkey FOREIGN KEY (studio_id, follow_up_id) REFERENCES follow_ups,
     CONSTRAINT ride_recordings_file_id_fkey FOREIGN KEY (studio_id, file_id) REFERENCES files ON DELETE CASCADE,
     CONSTRAINT ride_recordings_one_of_follow_up UNIQUE (studio_id, follow_up_id),
     CONSTRAINT ride_recordings_one_of_file UNIQUE (studio_id, file_id)
   )`,
  ...tenantTable('ride_recordings', 'SELECT, INSERT, DELETE'),
];
