import { utcText, type PaymentKind, type PaymentMethod, type SqlRunner } from '@studio/database';
import { unusedDeposit } from './payments.queries.js';

interface Days {
  readonly studioId: string;
  readonly timeZone: string;
  readonly from: string;
  readonly until: string;
}

/** Instants from the first day's beginning to the last day's end, on the studio's wall clock; parameters 2 to 4. */
const within = (column: string): string =>
  `${column} >= $3::date::timestamp AT TIME ZONE $2 AND ${column} < ($4::date + 1)::timestamp AT TIME ZONE $2`;

/** A credit note counts against. */
const sign = `CASE d.kind WHEN 'credit_note' THEN -1 ELSE 1 END`;

export interface TaxOfDay {
  readonly day: string;
  readonly currency: string;
  readonly taxClass: string;
  readonly taxRatePercent: string;
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
}

export function taxesByDay(sql: SqlRunner, days: Days): Promise<TaxOfDay[]> {
  return sql.query<TaxOfDay[]>(
    `SELECT (d.issued_at AT TIME ZONE $2)::date::text AS day, d.currency, l.tax_class AS "taxClass",
            trim_scale(l.tax_rate_percent)::text AS "taxRatePercent",
            sum(${sign} * l.net_minor)::float8 AS "netMinor", sum(${sign} * l.tax_minor)::float8 AS "taxMinor",
            sum(${sign} * l.gross_minor)::float8 AS "grossMinor"
       FROM account_documents d JOIN account_lines l ON l.studio_id = d.studio_id AND l.document_id = d.id
      WHERE d.studio_id = $1 AND d.state = 'issued' AND d.kind <> 'quote' AND ${within('d.issued_at')}
      GROUP BY 1, 2, 3, l.tax_rate_percent ORDER BY 1, 2, 3, l.tax_rate_percent`,
    [days.studioId, days.timeZone, days.from, days.until],
  );
}

export interface IssuedOfDay {
  readonly day: string;
  readonly currency: string;
  readonly receipts: number;
  readonly creditNotes: number;
}

export function issuedByDay(sql: SqlRunner, days: Days): Promise<IssuedOfDay[]> {
  return sql.query<IssuedOfDay[]>(
    `SELECT (d.issued_at AT TIME ZONE $2)::date::text AS day, d.currency,
            (count(*) FILTER (WHERE d.kind = 'receipt'))::integer AS receipts,
            (count(*) FILTER (WHERE d.kind = 'credit_note'))::integer AS "creditNotes"
       FROM account_documents d
      WHERE d.studio_id = $1 AND d.state = 'issued' AND d.kind <> 'quote' AND ${within('d.issued_at')}
      GROUP BY 1, 2`,
    [days.studioId, days.timeZone, days.from, days.until],
  );
}

export interface MethodOfDay {
  readonly day: string;
  readonly currency: string;
  readonly method: PaymentMethod;
  readonly takenMinor: number;
  readonly givenBackMinor: number;
  readonly totalMinor: number;
}

/** A mistake that is taken back counts on the side of what it takes back. */
export function methodsByDay(sql: SqlRunner, days: Days): Promise<MethodOfDay[]> {
  const givenBack = `coalesce(r.kind, p.kind) = 'refund'`;
  return sql.query<MethodOfDay[]>(
    `SELECT (p.created_at AT TIME ZONE $2)::date::text AS day, p.currency, p.method,
            coalesce(sum(p.amount_minor) FILTER (WHERE NOT ${givenBack}), 0)::float8 AS "takenMinor",
            coalesce(-sum(p.amount_minor) FILTER (WHERE ${givenBack}), 0)::float8 AS "givenBackMinor",
            sum(p.amount_minor)::float8 AS "totalMinor"
       FROM payments p LEFT JOIN payments r ON r.studio_id = p.studio_id AND r.id = p.reverses_id
      WHERE p.studio_id = $1 AND ${within('p.created_at')}
      GROUP BY 1, 2, 3 ORDER BY 1, 2, 3`,
    [days.studioId, days.timeZone, days.from, days.until],
  );
}

export interface BalanceRow {
  readonly currency: string;
  readonly openMinor: number;
  readonly depositsMinor: number;
}

export function clientBalances(
  sql: SqlRunner,
  key: { studioId: string; clientId: string },
): Promise<BalanceRow[]> {
  return sql.query<BalanceRow[]>(
    `WITH receipts AS (
       SELECT id, receipt_id, kind, currency, gross_minor FROM account_documents
        WHERE studio_id = $1 AND client_id = $2 AND state = 'issued' AND kind <> 'quote'),
     entries AS (
       SELECT currency, CASE kind WHEN 'credit_note' THEN -gross_minor ELSE gross_minor END AS open, 0 AS deposit
         FROM receipts
        UNION ALL
       SELECT p.currency, -p.amount_minor, 0 FROM payments p
        WHERE p.studio_id = $1 AND p.document_id IN (SELECT id FROM receipts)
        UNION ALL
       SELECT d.currency, -u.amount_minor, 0
         FROM deposit_uses u JOIN receipts d ON d.id = u.document_id WHERE u.studio_id = $1
        UNION ALL
       SELECT p.currency, 0, ${unusedDeposit} FROM payments p
        WHERE p.studio_id = $1 AND p.client_id = $2 AND p.kind = 'deposit')
     SELECT currency, sum(open)::float8 AS "openMinor", sum(deposit)::float8 AS "depositsMinor"
       FROM entries GROUP BY currency ORDER BY currency`,
    [key.studioId, key.clientId],
  );
}

export async function hasClient(
  sql: SqlRunner,
  key: { studioId: string; clientId: string },
): Promise<boolean> {
  const rows = await sql.query<unknown[]>('SELECT 1 FROM clients WHERE studio_id = $1 AND id = $2', [
    key.studioId,
    key.clientId,
  ]);
  return rows.length === 1;
}

/** Where a page of an export ended: nothing is put before it, since what is written down stays. */
export interface After {
  readonly at: string;
  readonly id: string;
}

export interface SalesRow {
  readonly id: string;
  readonly at: string;
  readonly day: string;
  readonly kind: 'receipt' | 'credit_note';
  readonly series: string;
  readonly year: number;
  readonly number: number;
  readonly corrects: { series: string; year: number; number: number } | null;
  readonly clientId: string | null;
  readonly buyerName: string | null;
  readonly suppliedOn: string;
  readonly currency: string;
  readonly taxes: readonly {
    readonly taxClass: string;
    readonly taxRatePercent: number;
    readonly netMinor: number;
    readonly taxMinor: number;
    readonly grossMinor: number;
  }[];
}

const later = (column: string, id: string): string =>
  `($5::timestamptz IS NULL OR (${column}, ${id}) > ($5::timestamptz, $6::uuid))`;
/** With the microseconds, which the next page goes on from. */
const exactly = (column: string): string =>
  `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"')`;

export function salesAfter(
  sql: SqlRunner,
  days: Days,
  page: { after: After | null; limit: number },
): Promise<SalesRow[]> {
  return sql.query<SalesRow[]>(
    `SELECT d.id, ${exactly('d.issued_at')} AS at, (d.issued_at AT TIME ZONE $2)::date::text AS day, d.kind,
            d.series, d.year, d.number, d.client_id AS "clientId", d.buyer_name AS "buyerName",
            d.supplied_on::text AS "suppliedOn", d.currency,
            (SELECT json_build_object('series', r.series, 'year', r.year, 'number', r.number)
               FROM account_documents r WHERE r.studio_id = d.studio_id AND r.id = d.receipt_id) AS corrects,
            (SELECT json_agg(t) FROM (
               SELECT l.tax_class AS "taxClass", trim_scale(l.tax_rate_percent) AS "taxRatePercent",
                      sum(${sign} * l.net_minor) AS "netMinor", sum(${sign} * l.tax_minor) AS "taxMinor",
                      sum(${sign} * l.gross_minor) AS "grossMinor"
                 FROM account_lines l WHERE l.studio_id = d.studio_id AND l.document_id = d.id
                GROUP BY l.tax_class, l.tax_rate_percent ORDER BY l.tax_class, l.tax_rate_percent) t) AS taxes
       FROM account_documents d
      WHERE d.studio_id = $1 AND d.state = 'issued' AND d.kind <> 'quote' AND ${within('d.issued_at')}
        AND ${later('d.issued_at', 'd.id')}
      ORDER BY d.issued_at, d.id LIMIT $7`,
    [days.studioId, days.timeZone, days.from, days.until, page.after?.at, page.after?.id, page.limit],
  );
}

export interface MoneyRow {
  readonly id: string;
  readonly at: string;
  readonly day: string;
  readonly kind: PaymentKind;
  readonly method: PaymentMethod;
  readonly amountMinor: number;
  readonly currency: string;
  readonly clientId: string | null;
  readonly note: string | null;
  readonly reversesId: string | null;
  readonly document: { series: string; year: number; number: number } | null;
  readonly recordedAt: string;
}

export function moneyAfter(
  sql: SqlRunner,
  days: Days,
  page: { after: After | null; limit: number },
): Promise<MoneyRow[]> {
  return sql.query<MoneyRow[]>(
    `SELECT p.id, ${exactly('p.created_at')} AS at, (p.created_at AT TIME ZONE $2)::date::text AS day, p.kind,
            p.method, p.amount_minor::float8 AS "amountMinor", p.currency, p.client_id AS "clientId", p.note,
            p.reverses_id AS "reversesId", ${utcText('p.created_at')} AS "recordedAt",
            (SELECT json_build_object('series', d.series, 'year', d.year, 'number', d.number)
               FROM account_documents d WHERE d.studio_id = p.studio_id AND d.id = p.document_id) AS document
       FROM payments p
      WHERE p.studio_id = $1 AND ${within('p.created_at')} AND ${later('p.created_at', 'p.id')}
      ORDER BY p.created_at, p.id LIMIT $7`,
    [days.studioId, days.timeZone, days.from, days.until, page.after?.at, page.after?.id, page.limit],
  );
}
