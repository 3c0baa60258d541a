import type { MigrationInterface, QueryRunner } from 'typeorm';
import { tenantTable } from './tenant-table.js';

/**
 * What the desk needs of money: rates of tax with their days, a price list of parts, quotes, receipts and credit notes,
 * and money as it was taken and given back. What is issued stays as it is, and so does every record of money.
 */
export class Accounts1764000018000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of statements) await runner.query(statement);
  }

  async down(runner: QueryRunner): Promise<void> {
    await runner.query(
      `DROP TABLE deposit_uses, payments, account_lines, account_documents, number_series, parts, tax_rates,
         account_settings`,
    );
    await runner.query('DROP FUNCTION issued_documents_stay(), lines_of_drafts_only()');
    await runner.query('ALTER TABLE services DROP COLUMN tax_class');
  }
}

const currency = (table: string): string =>
  `currency text NOT NULL CONSTRAINT ${table}_currency_form CHECK (currency ~ '^[A-Z]{3}$')`;
const taxClass = (table: string): string =>
  `tax_class text NOT NULL CONSTRAINT ${table}_tax_class_form CHECK (tax_class ~ '^[a-z0-9]+(_[a-z0-9]+)*$')`;
const rate = (table: string): string =>
  `tax_rate_percent numeric(6, 3) NOT NULL
     CONSTRAINT ${table}_tax_rate_range CHECK (tax_rate_percent BETWEEN 0 AND 100)`;
const created = `created_at timestamptz NOT NULL DEFAULT app_now()`;
const totals = (table: string): string =>
  `net_minor bigint NOT NULL,
   tax_minor bigint NOT NULL,
   gross_minor bigint NOT NULL,
   CONSTRAINT ${table}_adds_up CHECK (net_minor + tax_minor = gross_minor),
   CONSTRAINT ${table}_not_negative CHECK (net_minor >= 0 AND tax_minor >= 0)`;

const statements = [
  `ALTER TABLE services ADD tax_class text
     CONSTRAINT services_tax_class_form CHECK (tax_class ~ '^[a-z0-9]+(_[a-z0-9]+)*$')`,

  `CREATE TABLE account_settings (
     studio_id uuid NOT NULL CONSTRAINT account_settings_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     ${currency('account_settings')},
     tax_included boolean NOT NULL,
     seller_name text NOT NULL,
     seller_address text,
     seller_tax_number text,
     footer text,
     paper text NOT NULL CONSTRAINT account_settings_paper_known CHECK (paper IN ('A4', 'LETTER')),
     quote_series text NOT NULL,
     receipt_series text NOT NULL,
     credit_note_series text NOT NULL,
     version integer NOT NULL DEFAULT 1,
     ${created},
     CONSTRAINT account_settings_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT account_settings_one UNIQUE (studio_id)
   )`,
  ...tenantTable('account_settings'),

  `CREATE TABLE tax_rates (
     studio_id uuid NOT NULL CONSTRAINT tax_rates_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     ${taxClass('tax_rates')},
     ${rate('tax_rates')},
     valid_from date NOT NULL,
     valid_until date,
     version integer NOT NULL DEFAULT 1,
     ${created},
     CONSTRAINT tax_rates_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT tax_rates_validity CHECK (valid_from <= valid_until),
     CONSTRAINT tax_rates_one_a_day
       EXCLUDE USING gist (studio_id WITH =, tax_class WITH =, daterange(valid_from, valid_until, '[]') WITH &&)
   )`,
  ...tenantTable('tax_rates'),

  `CREATE TABLE parts (
     studio_id uuid NOT NULL CONSTRAINT parts_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     name text NOT NULL,
     kind text NOT NULL,
     price_minor bigint NOT NULL CONSTRAINT parts_price_range CHECK (price_minor BETWEEN 0 AND 99999999999),
     ${currency('parts')},
     ${taxClass('parts')},
     retired_at timestamptz,
     version integer NOT NULL DEFAULT 1,
     ${created},
     CONSTRAINT parts_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT parts_name_once UNIQUE (studio_id, name)
   )`,
  ...tenantTable('parts'),

  // One row a series and year: whoever counts it up holds it until the document is committed or not, so no number
  // is given twice and none is left out.
  `CREATE TABLE number_series (
     studio_id uuid NOT NULL CONSTRAINT number_series_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     series text NOT NULL,
     year integer NOT NULL,
     last_number integer NOT NULL,
     last_issued_at timestamptz NOT NULL,
     CONSTRAINT number_series_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT number_series_once UNIQUE (studio_id, series, year)
   )`,
  ...tenantTable('number_series'),

  `CREATE TABLE account_documents (
     studio_id uuid NOT NULL CONSTRAINT account_documents_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     kind text NOT NULL
       CONSTRAINT account_documents_kind_known CHECK (kind IN ('quote', 'receipt', 'credit_note')),
     state text NOT NULL DEFAULT 'draft'
       CONSTRAINT account_documents_state_known CHECK (state IN ('draft', 'issued', 'discarded')),
     client_id uuid,
     buyer_name text,
     buyer_address text,
     buyer_tax_number text,
     note text,
     supplied_on date NOT NULL,
     valid_until date,
     ${currency('account_documents')},
     tax_included boolean NOT NULL,
     discount_percent numeric(6, 3),
     discount_minor bigint,
     CONSTRAINT account_documents_one_discount CHECK (discount_percent IS NULL OR discount_minor IS NULL),
     ${totals('account_documents')},
     series text NOT NULL CONSTRAINT account_documents_series_form CHECK (series ~ '^[A-Z0-9]{1,8}$'),
     year integer,
     number integer,
     issued_at timestamptz,
     issued_by uuid,
     seller jsonb,
     quote_id uuid,
     receipt_id uuid,
     reason text,
     version integer NOT NULL DEFAULT 1,
     ${created},
     CONSTRAINT account_documents_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT account_documents_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT account_documents_issued_by_fkey FOREIGN KEY (studio_id, issued_by) REFERENCES users,
     CONSTRAINT account_documents_quote_id_fkey FOREIGN KEY (studio_id, quote_id) REFERENCES account_documents,
     CONSTRAINT account_documents_receipt_id_fkey FOREIGN KEY (studio_id, receipt_id) REFERENCES account_documents,
     CONSTRAINT account_documents_number_once UNIQUE (studio_id, series, year, number),
     CONSTRAINT account_documents_issued_whole
       CHECK ((state = 'issued') = (year IS NOT NULL AND number IS NOT NULL AND issued_at IS NOT NULL
                                    AND issued_by IS NOT NULL AND seller IS NOT NULL)),
     CONSTRAINT account_documents_credit_whole
       CHECK ((kind = 'credit_note') = (receipt_id IS NOT NULL AND reason IS NOT NULL)),
     CONSTRAINT account_documents_quote_before_receipt CHECK (quote_id IS NULL OR kind = 'receipt')
   )`,
  `CREATE INDEX account_documents_client ON account_documents (studio_id, client_id)`,
  `CREATE INDEX account_documents_issued ON account_documents (studio_id, issued_at) WHERE state = 'issued'`,
  `CREATE INDEX account_documents_receipt ON account_documents (studio_id, receipt_id) WHERE receipt_id IS NOT NULL`,
  `CREATE FUNCTION issued_documents_stay() RETURNS trigger LANGUAGE plpgsql AS $$
     BEGIN
       IF OLD.state <> 'draft' THEN
         RAISE EXCEPTION 'a document that is % stays as it is', OLD.state
           USING ERRCODE = 'restrict_violation', CONSTRAINT = 'account_documents_stay';
       END IF;
       RETURN CASE TG_OP WHEN 'DELETE' THEN OLD ELSE NEW END;
     END $$`,
  `CREATE TRIGGER account_documents_stay BEFORE UPDATE OR DELETE ON account_documents
     FOR EACH ROW EXECUTE FUNCTION issued_documents_stay()`,
  ...tenantTable('account_documents'),

  `CREATE TABLE account_lines (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     document_id uuid NOT NULL,
     position integer NOT NULL,
     service_id uuid,
     part_id uuid,
     appointment_id uuid,
     credits_line_id uuid,
     description text NOT NULL,
     quantity numeric(7, 3) NOT NULL CONSTRAINT account_lines_quantity_range CHECK (quantity > 0),
     unit_price_minor bigint NOT NULL,
     discount_percent numeric(6, 3),
     discount_minor bigint,
     CONSTRAINT account_lines_one_discount CHECK (discount_percent IS NULL OR discount_minor IS NULL),
     taken_off_minor bigint NOT NULL,
     ${taxClass('account_lines')},
     ${rate('account_lines')},
     ${totals('account_lines')},
     CONSTRAINT account_lines_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT account_lines_document_id_fkey FOREIGN KEY (studio_id, document_id) REFERENCES account_documents,
     CONSTRAINT account_lines_service_id_fkey FOREIGN KEY (studio_id, service_id) REFERENCES services,
     CONSTRAINT account_lines_part_id_fkey FOREIGN KEY (studio_id, part_id) REFERENCES parts,
     CONSTRAINT account_lines_appointment_id_fkey FOREIGN KEY (studio_id, appointment_id) REFERENCES appointments,
     CONSTRAINT account_lines_credits_line_id_fkey FOREIGN KEY (studio_id, credits_line_id) REFERENCES account_lines,
     CONSTRAINT account_lines_position_once UNIQUE (studio_id, document_id, position)
   )`,
  `CREATE INDEX account_lines_credits ON account_lines (studio_id, credits_line_id) WHERE credits_line_id IS NOT NULL`,
  `CREATE INDEX account_lines_appointment ON account_lines (studio_id, appointment_id) WHERE appointment_id IS NOT NULL`,
  `CREATE FUNCTION lines_of_drafts_only() RETURNS trigger LANGUAGE plpgsql AS $$
     DECLARE
       line account_lines := CASE TG_OP WHEN 'DELETE' THEN OLD ELSE NEW END;
     BEGIN
       IF EXISTS (SELECT FROM account_documents d
                   WHERE d.studio_id = line.studio_id AND d.id = line.document_id AND d.state <> 'draft') THEN
         RAISE EXCEPTION 'the lines of a document stay as they were issued'
           USING ERRCODE = 'restrict_violation', CONSTRAINT = 'account_lines_stay';
       END IF;
       RETURN line;
     END $$`,
  `CREATE TRIGGER account_lines_stay BEFORE INSERT OR UPDATE OR DELETE ON account_lines
     FOR EACH ROW EXECUTE FUNCTION lines_of_drafts_only()`,
  ...tenantTable('account_lines', 'SELECT, INSERT, DELETE'),

  // Money in is positive, money out negative. A mistake is taken back by a row of its own.
  `CREATE TABLE payments (
     studio_id uuid NOT NULL CONSTRAINT payments_studio_id_fkey REFERENCES studios,
     id uuid NOT NULL DEFAULT uuidv7(),
     kind text NOT NULL
       CONSTRAINT payments_kind_known CHECK (kind IN ('payment', 'deposit', 'refund', 'reversal')),
     method text NOT NULL CONSTRAINT payments_method_known CHECK (method IN ('cash', 'card_terminal', 'bank_transfer')),
     amount_minor bigint NOT NULL,
     ${currency('payments')},
     client_id uuid,
     document_id uuid,
     deposit_id uuid,
     reverses_id uuid,
     note text,
     recorded_by uuid NOT NULL,
     ${created},
     CONSTRAINT payments_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT payments_client_id_fkey FOREIGN KEY (studio_id, client_id) REFERENCES clients,
     CONSTRAINT payments_document_id_fkey FOREIGN KEY (studio_id, document_id) REFERENCES account_documents,
     CONSTRAINT payments_deposit_id_fkey FOREIGN KEY (studio_id, deposit_id) REFERENCES payments,
     CONSTRAINT payments_reverses_id_fkey FOREIGN KEY (studio_id, reverses_id) REFERENCES payments,
     CONSTRAINT payments_recorded_by_fkey FOREIGN KEY (studio_id, recorded_by) REFERENCES users,
     CONSTRAINT payments_reversed_once UNIQUE (studio_id, reverses_id),
     CONSTRAINT payments_sign CHECK (
       CASE kind WHEN 'refund' THEN amount_minor < 0 WHEN 'reversal' THEN amount_minor <> 0 ELSE amount_minor > 0 END),
     CONSTRAINT payments_of_something CHECK (
       CASE kind WHEN 'payment' THEN document_id IS NOT NULL AND deposit_id IS NULL AND reverses_id IS NULL
                 WHEN 'deposit' THEN client_id IS NOT NULL AND document_id IS NULL AND deposit_id IS NULL
                                     AND reverses_id IS NULL
                 WHEN 'refund' THEN (document_id IS NULL) <> (deposit_id IS NULL) AND reverses_id IS NULL
                 ELSE reverses_id IS NOT NULL END)
   )`,
  `CREATE INDEX payments_document ON payments (studio_id, document_id) WHERE document_id IS NOT NULL`,
  `CREATE INDEX payments_client ON payments (studio_id, client_id) WHERE client_id IS NOT NULL`,
  `CREATE INDEX payments_deposit ON payments (studio_id, deposit_id) WHERE deposit_id IS NOT NULL`,
  `CREATE INDEX payments_time ON payments (studio_id, created_at)`,
  ...tenantTable('payments', 'SELECT, INSERT'),

  `CREATE TABLE deposit_uses (
     studio_id uuid NOT NULL,
     id uuid NOT NULL DEFAULT uuidv7(),
     deposit_id uuid NOT NULL,
     document_id uuid NOT NULL,
     amount_minor bigint NOT NULL CONSTRAINT deposit_uses_amount_range CHECK (amount_minor > 0),
     recorded_by uuid NOT NULL,
     ${created},
     CONSTRAINT deposit_uses_pkey PRIMARY KEY (studio_id, id),
     CONSTRAINT deposit_uses_deposit_id_fkey FOREIGN KEY (studio_id, deposit_id) REFERENCES payments,
     CONSTRAINT deposit_uses_document_id_fkey FOREIGN KEY (studio_id, document_id) REFERENCES account_documents,
     CONSTRAINT deposit_uses_recorded_by_fkey FOREIGN KEY (studio_id, recorded_by) REFERENCES users
   )`,
  `CREATE INDEX deposit_uses_deposit ON deposit_uses (studio_id, deposit_id)`,
  `CREATE INDEX deposit_uses_document ON deposit_uses (studio_id, document_id)`,
  ...tenantTable('deposit_uses', 'SELECT, INSERT'),
];
