import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/** Lists of clients from elsewhere, row by row, with what became of each; names indexed by their groups of three letters. */
export class ClientImports1764000009200 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query('DROP TABLE client_import_rows, client_imports');
    await runner.query('DROP INDEX clients_name_letters');
  }
}

const statements = [
  `CREATE INDEX clients_name_letters ON clients
     USING gist (studio_id, (lower(given_name || ' ' || family_name)) gist_trgm_ops)`,

  `CREATE TABLE client_imports (
     studio_id uuid NOT NULL CONSTRAINT client_imports_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     state text NOT NULL DEFAULT 'uploaded'
       CONSTRAINT client_imports_state_known CHECK (state IN ('uploaded', 'ready', 'ordered', 'done')),
     charset text NOT NULL,
     separator text NOT NULL,
     headers text[] NOT NULL,
     mapping jsonb,
     uploaded_by uuid NOT NULL,
     ordered_by uuid,
     done_at timestamptz,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT client_imports_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT client_imports_uploaded_by_fkey FOREIGN KEY (studio_id, uploaded_by) REFERENCES users,
     CONSTRAINT client_imports_ordered_by_fkey FOREIGN KEY (studio_id, ordered_by) REFERENCES users,
     CONSTRAINT client_imports_mapped CHECK (state = 'uploaded' OR mapping IS NOT NULL),
     CONSTRAINT client_imports_done_whole CHECK ((state = 'done') = (done_at IS NOT NULL))
   )`,
  ...tenantTable('client_imports', 'SELECT, INSERT, UPDATE, DELETE'),

  `CREATE TABLE client_import_rows (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     import_id uuid NOT NULL,
     row_number integer NOT NULL,
     cells text[] NOT NULL,
     fields jsonb,
     problems jsonb NOT NULL DEFAULT '[]',
     same_as_row integer,
     decision text NOT NULL DEFAULT 'unless_duplicate'
       CONSTRAINT client_import_rows_decision_known CHECK (decision IN ('unless_duplicate', 'import', 'leave_out')),
     state text NOT NULL DEFAULT 'unread'
       CONSTRAINT client_import_rows_state_known
         CHECK (state IN ('unread', 'ready', 'invalid', 'imported', 'left_out')),
     client_id uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT client_import_rows_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT client_import_rows_import_id_fkey
       FOREIGN KEY (studio_id, import_id) REFERENCES client_imports ON DELETE CASCADE,
     CONSTRAINT client_import_rows_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT client_import_rows_once UNIQUE (studio_id, import_id, row_number),
     CONSTRAINT client_import_rows_imported_whole CHECK (state <> 'imported' OR client_id IS NOT NULL)
   )`,
  ...tenantTable('client_import_rows', 'SELECT, INSERT, UPDATE, DELETE'),
];
