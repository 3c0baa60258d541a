import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * What a person may ask of a studio about their own data; records that are only kept; erasure, which is the one way a
 * signed record or an issued document loses what it says of a person.
 */
export class Rights1764000025000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undo) await runner.query(statement);
  }
}

const mayContact = (also: string): string =>
  `CREATE OR REPLACE FUNCTION app_may_contact(studio uuid, client uuid) RETURNS boolean
     LANGUAGE sql STABLE PARALLEL SAFE
     AS $$ SELECT app_consented(studio, client, 'contact')
              AND NOT EXISTS (SELECT FROM app_same_client(studio, client) AS same (id)
                                JOIN clients c ON c.studio_id = studio AND c.id = same.id AND ${also}) $$`;

const keepSignedSession = (unless: string, kept: string): string =>
  `CREATE OR REPLACE FUNCTION keep_signed_session() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       IF OLD.signed_at IS NOT NULL ${unless} THEN
         RAISE EXCEPTION 'a signed session is final'
           USING ERRCODE = 'check_violation', CONSTRAINT = 'fit_sessions_signed_is_final';
       END IF;
       RETURN ${kept};
     END $$`;

const keepSignedPart = (unless: string): string =>
  `CREATE OR REPLACE FUNCTION keep_signed_part() RETURNS trigger LANGUAGE plpgsql AS $$
     DECLARE
       part record := CASE WHEN TG_OP = 'DELETE' THEN OLD ELSE NEW END;
       session fit_sessions;
     BEGIN
       SELECT * INTO session FROM fit_sessions
         WHERE studio_id = part.studio_id AND id = part.fit_session_id FOR SHARE;
       IF session.signed_at IS NOT NULL ${unless} THEN
         RAISE EXCEPTION 'a signed session is final'
           USING ERRCODE = 'check_violation', CONSTRAINT = 'fit_sessions_signed_is_final';
       END IF;
       RETURN part;
     END $$`;

const issuedDocumentsStay = (unless: string): string =>
  `CREATE OR REPLACE FUNCTION issued_documents_stay() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       IF OLD.state <> 'draft' ${unless} THEN
         RAISE EXCEPTION 'a document that is % stays as it is', OLD.state
           USING ERRCODE = 'restrict_violation', CONSTRAINT = 'account_documents_stay';
       END IF;
       RETURN CASE TG_OP WHEN 'DELETE' THEN OLD ELSE NEW END;
     END $$`;

const linesOfDraftsOnly = (unless: string): string =>
  `CREATE OR REPLACE FUNCTION lines_of_drafts_only() RETURNS trigger LANGUAGE plpgsql AS $$
     DECLARE
       line account_lines := CASE TG_OP WHEN 'DELETE' THEN OLD ELSE NEW END;
     BEGIN
       IF EXISTS (SELECT FROM account_documents d
                   WHERE d.studio_id = line.studio_id AND d.id = line.document_id AND d.state <> 'draft' ${unless}) THEN
         RAISE EXCEPTION 'the lines of a document stay as they were issued'
           USING ERRCODE = 'restrict_violation', CONSTRAINT = 'account_lines_stay';
       END IF;
       RETURN line;
     END $$`;

/** All but these of an issued document stays as it was, whoever it was made out to. */
const ofTheBuyer = `ARRAY['client_id', 'buyer_name', 'buyer_address', 'buyer_tax_number', 'note', 'reason']`;

/** Rows that an erasure takes away, and that nobody could delete before. */
const deletedByWorker = [
  ...['messages', 'tasks', 'task_changes', 'slot_offers', 'slot_wishes', 'intake_links', 'client_notes'],
  ...['client_merges', 'client_summaries', 'follow_up_answers', 'follow_up_changes', 'follow_ups'],
  ...['session_operations', 'session_complaints', 'fit_changes', 'stage_spans', 'plans', 'positions'],
  ...['measurements', 'baselines', 'motion_recordings', 'amendments', 'fit_sheets', 'fit_sessions'],
  ...['referral_findings', 'referrals', 'cleared_findings', 'clearances', 'findings', 'screenings'],
  ...['bike_parts', 'bikes', 'shoe_hardware', 'shoes', 'client_consents', 'clients'],
  ...['shoe_works', 'shoe_work_consents', 'shoe_work_steps', 'shoe_work_photos', 'shoe_work_changes'],
  ...['session_advice', 'paired_positions'],
];

const statements = [
  `ALTER TABLE clients ADD restricted_at timestamptz, ADD stands_for_erased boolean NOT NULL DEFAULT false`,
  `CREATE UNIQUE INDEX clients_one_for_erased ON clients (studio_id) WHERE stands_for_erased`,
  mayContact('(c.do_not_contact OR c.restricted_at IS NOT NULL)'),

  `CREATE TABLE retention_choices (
     studio_id uuid NOT NULL CONSTRAINT retention_choices_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     country text NOT NULL,
     bound_by_health_law boolean NOT NULL,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT retention_choices_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT retention_choices_one UNIQUE (studio_id)
   )`,
  ...tenantTable('retention_choices'),

  `CREATE TABLE rights_requests (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid,
     kind text NOT NULL
       CONSTRAINT rights_requests_kind_known CHECK (kind IN ('access', 'correction', 'restriction', 'erasure')),
     state text NOT NULL DEFAULT 'received'
       CONSTRAINT rights_requests_state_known
         CHECK (state IN ('received', 'identity_checked', 'under_way', 'done', 'refused')),
     received_on date NOT NULL,
     due_on date NOT NULL,
     extended_because text,
     identity_checked_how text,
     decided_at timestamptz,
     decided_by uuid,
     decision text,
     recorded_by uuid NOT NULL,
     version integer NOT NULL DEFAULT 1,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT rights_requests_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT rights_requests_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT rights_requests_decided_by_fkey FOREIGN KEY (studio_id, decided_by) REFERENCES users,
     CONSTRAINT rights_requests_recorded_by_fkey FOREIGN KEY (studio_id, recorded_by) REFERENCES users,
     CONSTRAINT rights_requests_decision_whole CHECK ((decided_at IS NULL) = (decided_by IS NULL)
       AND (state IN ('under_way', 'done', 'refused')) = (decided_at IS NOT NULL)),
     CONSTRAINT rights_requests_due_after CHECK (received_on < due_on)
   )`,
  `CREATE INDEX rights_requests_client ON rights_requests (studio_id, client_id)`,
  ...tenantTable('rights_requests'),

  `CREATE TABLE person_exports (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     request_id uuid NOT NULL,
     client_id uuid NOT NULL,
     state text NOT NULL DEFAULT 'ordered'
       CONSTRAINT person_exports_state_known CHECK (state IN ('ordered', 'ready', 'failed', 'expired')),
     finished_at timestamptz,
     expires_at timestamptz,
     link_hash bytea,
     fetched_at timestamptz,
     ordered_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT person_exports_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT person_exports_request_id_fkey FOREIGN KEY (studio_id, request_id) REFERENCES rights_requests,
     CONSTRAINT person_exports_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT person_exports_ordered_by_fkey FOREIGN KEY (studio_id, ordered_by) REFERENCES users,
     CONSTRAINT person_exports_finished_whole
       CHECK ((state = 'ordered') = (finished_at IS NULL) AND (state IN ('ready', 'expired')) = (expires_at IS NOT NULL))
   )`,
  `CREATE INDEX person_exports_request ON person_exports (studio_id, request_id)`,
  ...tenantTable('person_exports'),
  `GRANT DELETE ON person_exports TO fitting_worker`,

  `CREATE TABLE erasures (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     request_id uuid NOT NULL,
     client_id uuid,
     category text NOT NULL
       CONSTRAINT erasures_category_known CHECK (category IN ('contact', 'health_record', 'accounts')),
     erase_on date NOT NULL,
     kept_by_law text,
     erased_at timestamptz,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT erasures_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT erasures_request_id_fkey FOREIGN KEY (studio_id, request_id) REFERENCES rights_requests,
     CONSTRAINT erasures_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT erasures_once UNIQUE (studio_id, client_id, category)
   )`,
  `CREATE INDEX erasures_to_come ON erasures (studio_id, erase_on) WHERE erased_at IS NULL`,
  ...tenantTable('erasures', 'SELECT'),
  // The API decides, the worker carries out: neither can undo a signed record alone.
  `GRANT INSERT, UPDATE ON erasures TO fitting_worker`,

  `CREATE FUNCTION app_to_be_erased(studio uuid, client uuid, what text) RETURNS boolean LANGUAGE sql STABLE
     AS $$ SELECT EXISTS (SELECT FROM erasures e
                           WHERE e.studio_id = studio AND e.client_id = client AND e.category = what
                             AND e.erase_on <= app_now()::date) $$`,
  keepSignedSession(
    `AND NOT (TG_OP = 'DELETE' AND app_to_be_erased(OLD.studio_id, OLD.client_id, 'health_record'))`,
    `CASE TG_OP WHEN 'DELETE' THEN OLD ELSE NEW END`,
  ),
  keepSignedPart(
    `AND NOT (TG_OP = 'DELETE' AND app_to_be_erased(session.studio_id, session.client_id, 'health_record'))`,
  ),
  issuedDocumentsStay(
    `AND NOT (TG_OP = 'UPDATE' AND to_jsonb(NEW) - ${ofTheBuyer} = to_jsonb(OLD) - ${ofTheBuyer}
              AND app_to_be_erased(OLD.studio_id, OLD.client_id, 'accounts'))`,
  ),
  linesOfDraftsOnly(
    `AND NOT (TG_OP = 'UPDATE' AND to_jsonb(NEW) - 'description' = to_jsonb(OLD) - 'description'
              AND app_to_be_erased(d.studio_id, d.client_id, 'accounts'))`,
  ),

  `GRANT DELETE ON ${deletedByWorker.join(', ')} TO fitting_worker`,
  `GRANT UPDATE (description) ON account_lines TO fitting_worker`,
  `GRANT UPDATE (guardian_id) ON shoe_work_consents TO fitting_worker`,
  `GRANT UPDATE (client_id, note) ON payments TO fitting_worker`,
  `GRANT UPDATE (reason) ON appointment_changes TO fitting_worker`,

  // What was signed is erased and that it was signed is not: the chain names sessions that are no more.
  `ALTER TABLE record_signatures
     DROP CONSTRAINT record_signatures_fit_session_id_fkey,
     DROP CONSTRAINT record_signatures_amendment_id_fkey,
     DROP CONSTRAINT record_signatures_kind_known,
     ALTER fit_session_id DROP NOT NULL,
     ALTER content DROP NOT NULL,
     ADD CONSTRAINT record_signatures_kind_known CHECK (kind IN ('session', 'amendment', 'erasure')),
     ADD CONSTRAINT record_signatures_session_named CHECK ((kind = 'erasure') = (fit_session_id IS NULL))`,
  `GRANT UPDATE (content) ON record_signatures TO fitting_worker`,

  // An outcome counts on when nobody can say any more whose it was.
  `ALTER TABLE outcome_summaries
     DROP CONSTRAINT outcome_summaries_fit_session_id_fkey,
     DROP CONSTRAINT outcome_summaries_client_id_fkey,
     DROP CONSTRAINT outcome_summaries_follow_up_id_fkey`,
  `GRANT DELETE ON outcome_summaries TO fitting_worker`,
];

/** What was erased stays erased: its signatures and outcomes stand in the way of going back. */
const undo = [
  `REVOKE DELETE ON outcome_summaries FROM fitting_worker`,
  `ALTER TABLE outcome_summaries
     ADD CONSTRAINT outcome_summaries_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     ADD CONSTRAINT outcome_summaries_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     ADD CONSTRAINT outcome_summaries_follow_up_id_fkey FOREIGN KEY (studio_id, follow_up_id) REFERENCES follow_ups`,
  `REVOKE UPDATE (content) ON record_signatures FROM fitting_worker`,
  `ALTER TABLE record_signatures
     DROP CONSTRAINT record_signatures_session_named,
     DROP CONSTRAINT record_signatures_kind_known,
     ALTER fit_session_id SET NOT NULL,
     ALTER content SET NOT NULL,
     ADD CONSTRAINT record_signatures_kind_known CHECK (kind IN ('session', 'amendment')),
     ADD CONSTRAINT record_signatures_fit_session_id_fkey FOREIGN KEY (studio_id, fit_session_id) REFERENCES fit_sessions,
     ADD CONSTRAINT record_signatures_amendment_id_fkey FOREIGN KEY (studio_id, amendment_id) REFERENCES amendments`,
  `REVOKE UPDATE (reason) ON appointment_changes FROM fitting_worker`,
  `REVOKE UPDATE (guardian_id) ON shoe_work_consents FROM fitting_worker`,
  `REVOKE UPDATE (client_id, note) ON payments FROM fitting_worker`,
  `REVOKE UPDATE (description) ON account_lines FROM fitting_worker`,
  `REVOKE DELETE ON ${deletedByWorker.join(', ')} FROM fitting_worker`,
  linesOfDraftsOnly(''),
  issuedDocumentsStay(''),
  keepSignedPart(''),
  keepSignedSession('', 'NEW'),
  'DROP FUNCTION app_to_be_erased(uuid, uuid, text)',
  'DROP TABLE erasures, person_exports, rights_requests, retention_choices',
  mayContact('c.do_not_contact'),
  'DROP INDEX clients_one_for_erased',
  'ALTER TABLE clients DROP COLUMN restricted_at, DROP COLUMN stands_for_erased',
];
