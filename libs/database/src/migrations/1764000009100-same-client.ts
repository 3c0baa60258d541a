import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * Two records of one person become one without a row of either being moved: signed sessions, screenings and consents
 * stay where they were written, and are read through all records of the person. Dated notes; family and team.
 */
export class SameClient1764000009100 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undo) await runner.query(statement);
  }
}

const statements = [
  `ALTER TABLE clients
     ADD merged_into uuid,
     ADD merged_at timestamptz,
     ADD CONSTRAINT clients_merged_into_fkey FOREIGN KEY (studio_id, merged_into) REFERENCES clients,
     ADD CONSTRAINT clients_merged_into_another CHECK (merged_into <> id),
     ADD CONSTRAINT clients_merge_whole CHECK ((merged_into IS NULL) = (merged_at IS NULL))`,
  `CREATE INDEX clients_person ON clients (studio_id, coalesce(merged_into, id))`,

  // The ids of all records of the person: the surviving one, and those merged into it.
  `CREATE FUNCTION app_same_client(studio uuid, client uuid) RETURNS SETOF uuid LANGUAGE sql STABLE PARALLEL SAFE ROWS 1
     AS $$ SELECT c.id FROM clients one
             JOIN clients c ON c.studio_id = one.studio_id
                           AND coalesce(c.merged_into, c.id) = coalesce(one.merged_into, one.id)
            WHERE one.studio_id = studio AND one.id = client $$`,

  // A consent given before two records were merged holds only while no record of the person has it withdrawn.
  `CREATE FUNCTION app_consented(studio uuid, client uuid, consent text) RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE
     AS $$ WITH said AS (
             SELECT DISTINCT ON (c.id) k.given_at, k.withdrawn_at, c.merged_at
               FROM app_same_client(studio, client) AS same (id)
               JOIN clients c ON c.studio_id = studio AND c.id = same.id
               JOIN client_consents k ON k.studio_id = studio AND k.client_id = c.id AND k.kind = consent
              ORDER BY c.id, k.withdrawn_at IS NOT NULL, k.id DESC)
           SELECT EXISTS (
             SELECT FROM said given
              WHERE given.withdrawn_at IS NULL
                AND NOT EXISTS (SELECT FROM said other
                                 WHERE other.withdrawn_at IS NOT NULL
                                   AND given.given_at <= greatest(other.merged_at, given.merged_at))) $$`,
  `CREATE FUNCTION app_may_contact(studio uuid, client uuid) RETURNS boolean LANGUAGE sql STABLE PARALLEL SAFE
     AS $$ SELECT app_consented(studio, client, 'contact')
              AND NOT EXISTS (SELECT FROM app_same_client(studio, client) AS same (id)
                                JOIN clients c ON c.studio_id = studio AND c.id = same.id AND c.do_not_contact) $$`,

  // A consent that a merge overruled is replaced by one that the client gives by a link, with nobody to record it.
  `ALTER TABLE client_consents
     DROP CONSTRAINT client_consents_withdrawal_whole,
     ADD CONSTRAINT client_consents_withdrawal_whole CHECK (withdrawn_at IS NOT NULL OR withdrawal_recorded_by IS NULL)`,

  `CREATE TABLE client_merges (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     surviving_id uuid NOT NULL,
     merged_id uuid NOT NULL,
     moved_ids uuid[] NOT NULL,
     fields_before jsonb NOT NULL,
     fields_after jsonb NOT NULL,
     merged_by uuid NOT NULL,
     undone_at timestamptz,
     undone_by uuid,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT client_merges_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT client_merges_surviving_id_fkey FOREIGN KEY (studio_id, surviving_id) REFERENCES clients,
     CONSTRAINT client_merges_merged_id_fkey FOREIGN KEY (studio_id, merged_id) REFERENCES clients,
     CONSTRAINT client_merges_merged_by_fkey FOREIGN KEY (studio_id, merged_by) REFERENCES users,
     CONSTRAINT client_merges_undone_by_fkey FOREIGN KEY (studio_id, undone_by) REFERENCES users,
     CONSTRAINT client_merges_undone_whole CHECK ((undone_at IS NULL) = (undone_by IS NULL))
   )`,
  `CREATE UNIQUE INDEX client_merges_one_standing ON client_merges (studio_id, merged_id) WHERE undone_at IS NULL`,
  `CREATE INDEX client_merges_surviving ON client_merges (studio_id, surviving_id, id)`,
  ...tenantTable('client_merges'),

  `CREATE TABLE client_notes (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     text text NOT NULL,
     corrects_id uuid,
     written_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT client_notes_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT client_notes_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT client_notes_corrects_id_fkey FOREIGN KEY (studio_id, corrects_id) REFERENCES client_notes,
     CONSTRAINT client_notes_written_by_fkey FOREIGN KEY (studio_id, written_by) REFERENCES users
   )`,
  `CREATE INDEX client_notes_client ON client_notes (studio_id, client_id, id)`,
  `CREATE INDEX client_notes_corrected ON client_notes (studio_id, corrects_id, id) WHERE corrects_id IS NOT NULL`,
  ...tenantTable('client_notes', 'SELECT, INSERT'),

  `CREATE TABLE client_links (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     other_id uuid NOT NULL,
     kind text NOT NULL CONSTRAINT client_links_kind_form CHECK (kind ~ '^[a-z]+(_[a-z]+)*$'),
     linked_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT client_links_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT client_links_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT client_links_other_id_fkey FOREIGN KEY (studio_id, other_id) REFERENCES clients,
     CONSTRAINT client_links_linked_by_fkey FOREIGN KEY (studio_id, linked_by) REFERENCES users,
     CONSTRAINT client_links_in_order CHECK (client_id < other_id),
     CONSTRAINT client_links_once UNIQUE (studio_id, client_id, other_id, kind)
   )`,
  `CREATE INDEX client_links_other ON client_links (studio_id, other_id)`,
  ...tenantTable('client_links', 'SELECT, INSERT, DELETE'),
];

const undo = [
  'DROP TABLE client_links, client_notes, client_merges',
  'DROP FUNCTION app_may_contact(uuid, uuid), app_consented(uuid, uuid, text), app_same_client(uuid, uuid)',
  `ALTER TABLE client_consents
     DROP CONSTRAINT client_consents_withdrawal_whole,
     ADD CONSTRAINT client_consents_withdrawal_whole
       CHECK ((withdrawn_at IS NULL) = (withdrawal_recorded_by IS NULL)) NOT VALID`,
  'ALTER TABLE clients DROP COLUMN merged_into, DROP COLUMN merged_at',
];
