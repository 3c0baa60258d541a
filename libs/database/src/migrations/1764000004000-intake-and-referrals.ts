import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * One-time intake links; each raised finding as a row of its own, so that it can be named and cleared alone; referral
 * cases; sign-offs of the rules.
 */
export class IntakeAndReferrals1764000004000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    for (const statement of undoing) await runner.query(statement);
  }
}

/** The owner is bound by row-level security like everyone; to carry old rows over it must see all studios. */
const seeingAll = (tables: readonly string[], statementsThen: readonly string[]): string[] => [
  ...tables.map((table) => `ALTER TABLE ${table} NO FORCE ROW LEVEL SECURITY`),
  ...statementsThen,
  ...tables.map((table) => `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`),
];

const statements = [
  // A client may give it by an intake link, without anyone of the studio.
  `ALTER TABLE client_consents ALTER COLUMN taken_by DROP NOT NULL`,

  `ALTER TABLE screenings DROP CONSTRAINT screenings_occasion_known,
     ADD CONSTRAINT screenings_occasion_known
       CHECK (occasion IN ('intake', 'session_start', 'during_session', 'follow_up'))`,

  // What clearances were before: for everything, without an end.
  `ALTER TABLE clearances DROP CONSTRAINT clearances_once,
     ADD COLUMN registration text,
     ADD COLUMN valid_until timestamptz,
     ADD COLUMN scope text[] NOT NULL
       DEFAULT ARRAY['riding', 'hard_effort', 'provocation_test', 'cleat_change', 'shoe_work']`,
  `ALTER TABLE clearances ALTER COLUMN scope DROP DEFAULT`,

  `CREATE TABLE findings (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     screening_id uuid NOT NULL,
     rule_id text NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT findings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT findings_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT findings_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT findings_once UNIQUE (studio_id, screening_id, rule_id)
   )`,
  `CREATE INDEX findings_client ON findings (studio_id, client_id)`,

  `CREATE TABLE cleared_findings (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     clearance_id uuid NOT NULL,
     finding_id uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT cleared_findings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT cleared_findings_clearance_id_fkey FOREIGN KEY (studio_id, clearance_id) REFERENCES clearances,
     CONSTRAINT cleared_findings_finding_id_fkey FOREIGN KEY (studio_id, finding_id) REFERENCES findings,
     CONSTRAINT cleared_findings_once UNIQUE (studio_id, clearance_id, finding_id)
   )`,
  `CREATE INDEX cleared_findings_finding ON cleared_findings (studio_id, finding_id)`,

  ...seeingAll(
    ['screenings', 'clearances'],
    [
      `INSERT INTO findings (studio_id, client_id, screening_id, rule_id, created_at)
         SELECT s.studio_id, s.client_id, s.id, found.finding->>'ruleId', s.created_at
           FROM screenings s, jsonb_array_elements(s.result->'findings') AS found (finding)
          WHERE found.finding->>'result' = 'raised'
          ORDER BY s.id`,
      `INSERT INTO cleared_findings (studio_id, clearance_id, finding_id, created_at)
         SELECT c.studio_id, c.id, f.id, c.created_at
           FROM clearances c
           JOIN findings f ON f.studio_id = c.studio_id AND f.screening_id = c.screening_id`,
    ],
  ),
  ...tenantTable('findings', 'SELECT, INSERT'),
  ...tenantTable('cleared_findings', 'SELECT, INSERT'),

  `CREATE TABLE intake_links (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     question_set_id text NOT NULL,
     question_set_version text NOT NULL,
     delivery text NOT NULL CONSTRAINT intake_links_delivery_known CHECK (delivery IN ('mail', 'hand_over')),
     link_hash bytea,
     expires_at timestamptz NOT NULL,
     message_id text,
     sent_at timestamptz,
     answers jsonb NOT NULL DEFAULT '{}',
     saved_at timestamptz,
     urgent_rules text[] NOT NULL DEFAULT '{}',
     submitted_at timestamptz,
     screening_id uuid,
     revoked_at timestamptz,
     created_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT intake_links_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT intake_links_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT intake_links_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT intake_links_created_by_fkey FOREIGN KEY (studio_id, created_by) REFERENCES users,
     CONSTRAINT intake_links_submission_whole CHECK ((submitted_at IS NULL) = (screening_id IS NULL))
   )`,
  `CREATE UNIQUE INDEX intake_links_one_open ON intake_links (studio_id, client_id)
     WHERE submitted_at IS NULL AND revoked_at IS NULL`,
  ...tenantTable('intake_links'),

  `CREATE TABLE referrals (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     client_id uuid NOT NULL,
     screening_id uuid NOT NULL,
     route text NOT NULL,
     due_at timestamptz NOT NULL,
     state text NOT NULL DEFAULT 'opened'
       CONSTRAINT referrals_state_known
         CHECK (state IN ('opened', 'handed_over', 'acknowledged', 'answered', 'cleared', 'ended')),
     alerted_at timestamptz,
     handed_over_at timestamptz,
     handed_over_how text,
     letter jsonb,
     acknowledged_at timestamptz,
     acknowledged_how text,
     answered_on date,
     answer text,
     answering_clinician text,
     answering_registration text,
     cleared_at timestamptz,
     ended_at timestamptz,
     end_reason text,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT referrals_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT referrals_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT referrals_screening_id_fkey FOREIGN KEY (studio_id, screening_id) REFERENCES screenings,
     CONSTRAINT referrals_hand_over_whole
       CHECK ((handed_over_at IS NULL) = (handed_over_how IS NULL) AND (handed_over_at IS NULL) = (letter IS NULL)),
     CONSTRAINT referrals_end_whole CHECK ((ended_at IS NULL) = (end_reason IS NULL))
   )`,
  `CREATE INDEX referrals_client ON referrals (studio_id, client_id, id)`,
  `CREATE INDEX referrals_open ON referrals (studio_id, due_at) WHERE state NOT IN ('cleared', 'ended')`,
  ...tenantTable('referrals'),

  `CREATE TABLE referral_findings (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     referral_id uuid NOT NULL,
     finding_id uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT referral_findings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT referral_findings_referral_id_fkey FOREIGN KEY (studio_id, referral_id) REFERENCES referrals,
     CONSTRAINT referral_findings_finding_id_fkey FOREIGN KEY (studio_id, finding_id) REFERENCES findings,
     CONSTRAINT referral_findings_once UNIQUE (studio_id, finding_id)
   )`,
  `CREATE INDEX referral_findings_referral ON referral_findings (studio_id, referral_id)`,
  ...tenantTable('referral_findings', 'SELECT, INSERT'),

  `CREATE TABLE rule_set_sign_offs (
     studio_id uuid NOT NULL CONSTRAINT rule_set_sign_offs_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     rule_set_version text NOT NULL,
     clinician_name text NOT NULL,
     registration text NOT NULL,
     signed_on date NOT NULL,
     recorded_by uuid NOT NULL,
     created_at timestamptz NOT NULL DEFAULT app_now(),
     CONSTRAINT rule_set_sign_offs_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT rule_set_sign_offs_recorded_by_fkey FOREIGN KEY (studio_id, recorded_by) REFERENCES users,
     CONSTRAINT rule_set_sign_offs_once UNIQUE (studio_id, rule_set_version, registration)
   )`,
  ...tenantTable('rule_set_sign_offs', 'SELECT, INSERT'),
];

/** Rows of the new kinds (other occasions, consents by link, second clearances) stand in the way of going back. */
const undoing = [
  `DROP TABLE rule_set_sign_offs, referral_findings, referrals, intake_links, cleared_findings, findings`,
  `ALTER TABLE clearances DROP COLUMN scope, DROP COLUMN valid_until, DROP COLUMN registration,
     ADD CONSTRAINT clearances_once UNIQUE (studio_id, screening_id)`,
  `ALTER TABLE screenings DROP CONSTRAINT screenings_occasion_known,
     ADD CONSTRAINT screenings_occasion_known CHECK (occasion IN ('intake', 'follow_up'))`,
  `ALTER TABLE client_consents ALTER COLUMN taken_by SET NOT NULL`,
];
