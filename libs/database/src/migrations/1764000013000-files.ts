import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Photos and documents: what they are and what they show; the bytes are in the storage, under the row's id. */
export class Files1764000013000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE files');
  }
}

const statements = [
  `CREATE TABLE files (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     fit_session_id uuid,
     bike_id uuid,
     shoe_id uuid,
     caption text,
     file_name text NOT NULL,
     media_type text NOT NULL
       CONSTRAINT files_media_type_known
         CHECK (media_type IN ('image/jpeg', 'image/png', 'image/webp', 'application/pdf')),
     bytes integer NOT NULL,
     width_px integer,
     height_px integer,
     sha256 text NOT NULL,
     uploaded_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT files_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT files_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT files_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     CONSTRAINT files_bike_id_fkey FOREIGN KEY (studio_id, bike_id) REFERENCES bikes,
     CONSTRAINT files_shoe_id_fkey FOREIGN KEY (studio_id, shoe_id) REFERENCES shoes,
     CONSTRAINT files_uploaded_by_fkey FOREIGN KEY (studio_id, uploaded_by) REFERENCES users,
     CONSTRAINT files_pixels_whole CHECK ((width_px IS NULL) = (height_px IS NULL)
       AND (width_px IS NULL) = (media_type = 'application/pdf'))
   )`,
  `CREATE INDEX files_client ON files (studio_id, client_id, id)`,
  ...tenantTable('files', 'SELECT, INSERT, DELETE'),
  `CREATE TRIGGER files_kept_once_signed BEFORE INSERT OR UPDATE OR DELETE ON files
     FOR EACH ROW EXECUTE FUNCTION keep_signed_part()`,
];
