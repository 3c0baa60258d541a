import {
  AccountDocument,
  AccountLine,
  type DocumentKind,
  type DocumentState,
  type Seller,
  type SqlRunner,
  whenGiven,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { longestPage } from '../../http/paging.js';
import type { ShownState } from './states.js';

export interface Key {
  readonly studioId: string;
  readonly id: string;
}

export interface DocumentRecord {
  readonly id: string;
  readonly kind: DocumentKind;
  readonly state: ShownState;
  readonly series: string;
  readonly year: number | null;
  readonly number: number | null;
  readonly issuedAt: Date | null;
  readonly clientId: string | null;
  readonly buyerName: string | null;
  readonly buyerAddress: string | null;
  readonly buyerTaxNumber: string | null;
  readonly note: string | null;
  readonly reason: string | null;
  readonly suppliedOn: string;
  readonly validUntil: string | null;
  readonly currency: string;
  readonly taxIncluded: boolean;
  readonly discountPercent: string | null;
  readonly discountMinor: number | null;
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
  readonly quoteId: string | null;
  readonly receiptId: string | null;
  readonly seller: Seller | null;
  readonly version: number;
  readonly creditedMinor: number;
  readonly paidMinor: number;
}

export interface LineRecord {
  readonly id: string;
  readonly position: number;
  readonly serviceId: string | null;
  readonly partId: string | null;
  readonly appointmentId: string | null;
  readonly creditsLineId: string | null;
  readonly description: string;
  readonly quantity: string;
  readonly unitPriceMinor: number;
  readonly discountPercent: string | null;
  readonly discountMinor: number | null;
  readonly takenOffMinor: number;
  readonly taxClass: string;
  readonly taxRatePercent: string;
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
  readonly creditedMinor: number;
}

/** A bigint of ours is a safe whole number, which a float of eight bytes holds exactly and the driver reads as number. */
const whole = (expression: string): string => `(${expression})::float8`;

/** Taken back of a receipt by credit notes; for it, money and deposits counted, less money given back. */
const credited = `coalesce((SELECT sum(c.gross_minor) FROM account_documents c
  WHERE c.studio_id = d.studio_id AND c.receipt_id = d.id AND c.state = 'issued'), 0)`;
const paid = `coalesce((SELECT sum(p.amount_minor)
     FROM (SELECT d.id UNION ALL
           SELECT c.id FROM account_documents c WHERE c.studio_id = d.studio_id AND c.receipt_id = d.id) AS own (id)
     JOIN payments p ON p.studio_id = d.studio_id AND p.document_id = own.id), 0)
  + coalesce((SELECT sum(u.amount_minor) FROM deposit_uses u
    WHERE u.studio_id = d.studio_id AND u.document_id = d.id), 0)`;

/** A receipt of which all was taken back is told as credited. */
const state = `CASE WHEN d.state = 'issued' AND d.kind = 'receipt' AND ${credited} > 0 AND ${credited} = d.gross_minor
  THEN 'credited' ELSE d.state END`;

const columns = `d.id, d.kind, ${state} AS state, d.series, d.year, d.number, d.issued_at AS "issuedAt",
  d.client_id AS "clientId",
  coalesce(d.buyer_name, (
    SELECT nullif(concat_ws(' ', k.given_name, k.family_name), '')
      FROM clients k WHERE k.studio_id = d.studio_id AND k.id = d.client_id)) AS "buyerName",
  d.buyer_address AS "buyerAddress", d.buyer_tax_number AS "buyerTaxNumber", d.note, d.reason,
  d.supplied_on::text AS "suppliedOn", d.valid_until::text AS "validUntil", d.currency,
  d.tax_included AS "taxIncluded", trim_scale(d.discount_percent)::text AS "discountPercent",
  ${whole('d.discount_minor')} AS "discountMinor", ${whole('d.net_minor')} AS "netMinor",
  ${whole('d.tax_minor')} AS "taxMinor", ${whole('d.gross_minor')} AS "grossMinor", d.quote_id AS "quoteId",
  d.receipt_id AS "receiptId", d.seller, d.version,
  ${whole(credited)} AS "creditedMinor", ${whole(paid)} AS "paidMinor"`;

export async function findDocument(sql: SqlRunner, key: Key): Promise<DocumentRecord | null> {
  const rows = await sql.query<DocumentRecord[]>(
    `SELECT ${columns} FROM account_documents d WHERE d.studio_id = $1 AND d.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** Nobody else credits it, pays it or changes it until the transaction ends. */
export async function lockDocument(tx: EntityManager, key: Key): Promise<void> {
  await tx.query('SELECT FROM account_documents WHERE studio_id = $1 AND id = $2 FOR NO KEY UPDATE', [
    key.studioId,
    key.id,
  ]);
}

/** Chosen first: what was paid and credited is worked out for those on the page only. */
export function listDocuments(
  sql: SqlRunner,
  page: {
    studioId: string;
    kind: DocumentKind | null;
    state: ShownState | null;
    clientId: string | null;
    after: string | null;
    limit: number;
  },
): Promise<DocumentRecord[]> {
  return sql.query<DocumentRecord[]>(
    `WITH page AS (
       SELECT * FROM (
         SELECT * FROM account_documents d
          WHERE d.studio_id = $1 AND ${whenGiven(page.kind, '$2::text', 'd.kind = $2')}
            AND ${whenGiven(page.clientId, '$3::uuid', 'd.client_id IN (SELECT * FROM app_same_client($1, $3))')}
            AND ${whenGiven(page.after, '$4::uuid', 'd.id > $4')}
            AND ${whenGiven(page.state, '$5::text', `${state} = $5`)}
          ORDER BY d.id LIMIT ${String(longestPage + 1)}) AS longest
        LIMIT $6)
     SELECT ${columns} FROM page d ORDER BY d.id`,
    [page.studioId, page.kind, page.clientId, page.after, page.state, page.limit],
  );
}

export function listLines(sql: SqlRunner, key: Key): Promise<LineRecord[]> {
  return sql.query<LineRecord[]>(
    `SELECT l.id, l.position, l.service_id AS "serviceId", l.part_id AS "partId",
            l.appointment_id AS "appointmentId", l.credits_line_id AS "creditsLineId", l.description,
            trim_scale(l.quantity)::text AS quantity, ${whole('l.unit_price_minor')} AS "unitPriceMinor",
            trim_scale(l.discount_percent)::text AS "discountPercent",
            ${whole('l.discount_minor')} AS "discountMinor", ${whole('l.taken_off_minor')} AS "takenOffMinor",
            l.tax_class AS "taxClass", trim_scale(l.tax_rate_percent)::text AS "taxRatePercent",
            ${whole('l.net_minor')} AS "netMinor", ${whole('l.tax_minor')} AS "taxMinor",
            ${whole('l.gross_minor')} AS "grossMinor",
            ${whole(`coalesce((SELECT sum(c.gross_minor) FROM account_lines c
                                WHERE c.studio_id = l.studio_id AND c.credits_line_id = l.id), 0)`)} AS "creditedMinor"
       FROM account_lines l WHERE l.studio_id = $1 AND l.document_id = $2 ORDER BY l.position`,
    [key.studioId, key.id],
  );
}

/** Of each line of a receipt what was credited so far, as net. */
export async function creditedNet(sql: SqlRunner, key: Key): Promise<Map<string, number>> {
  const rows = await sql.query<{ lineId: string; netMinor: number }[]>(
    `SELECT l.id AS "lineId", ${whole('sum(c.net_minor)')} AS "netMinor"
       FROM account_lines l JOIN account_lines c ON c.studio_id = l.studio_id AND c.credits_line_id = l.id
      WHERE l.studio_id = $1 AND l.document_id = $2 GROUP BY l.id`,
    [key.studioId, key.id],
  );
  return new Map(rows.map(({ lineId, netMinor }) => [lineId, netMinor]));
}

export type DocumentFields = Partial<
  Omit<AccountDocument, 'studioId' | 'id' | 'createdAt' | 'version' | 'state'>
>;
export type NewLine = Omit<AccountLine, 'studioId' | 'id' | 'documentId' | 'position'>;

export async function insertDocument(
  tx: EntityManager,
  studioId: string,
  fields: DocumentFields,
): Promise<string> {
  const { identifiers } = await tx.insert(AccountDocument, { studioId, ...fields });
  return (identifiers[0] as { id: string }).id;
}

/** Only while it has the version the change was made from; tells whether it did. */
export async function updateDocument(
  tx: EntityManager,
  key: Key & { version: number },
  fields: Partial<Omit<AccountDocument, 'studioId' | 'id' | 'createdAt' | 'version'>> & {
    state?: DocumentState;
  },
): Promise<boolean> {
  const { affected } = await tx.update(AccountDocument, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

export async function replaceLines(tx: EntityManager, key: Key, lines: readonly NewLine[]): Promise<void> {
  await tx.delete(AccountLine, { studioId: key.studioId, documentId: key.id });
  await tx.insert(
    AccountLine,
    lines.map((line, index) => ({
      ...line,
      studioId: key.studioId,
      documentId: key.id,
      position: index + 1,
    })),
  );
}

export interface TakenNumber {
  readonly year: number;
  readonly number: number;
  readonly issuedAt: Date;
}

/**
 * The next number of a series in this year of the studio's calendar. Whoever else issues in it waits until this
 * transaction ends; if it fails, its number is the next one's. Times follow the numbers.
 */
export async function takeNumber(
  tx: EntityManager,
  options: { studioId: string; series: string; timeZone: string },
): Promise<TakenNumber> {
  const [taken] = await tx.query<[TakenNumber]>(
    `INSERT INTO number_series AS n (studio_id, series, year, last_number, last_issued_at)
     VALUES ($1, $2, extract(year FROM app_now() AT TIME ZONE $3), 1, app_now())
       ON CONFLICT ON CONSTRAINT number_series_once DO UPDATE
         SET last_number = n.last_number + 1, last_issued_at = greatest(n.last_issued_at, excluded.last_issued_at)
     RETURNING year, last_number AS number, last_issued_at AS "issuedAt"`,
    [options.studioId, options.series, options.timeZone],
  );
  return taken;
}

export interface Sold {
  readonly id: string;
  readonly name: string;
  readonly priceMinor: number | null;
  readonly currency: string | null;
  readonly taxClass: string | null;
  readonly taxRatePercent: string | null;
  /** Null: as the studio's prices are. */
  readonly taxIncluded: boolean | null;
}

/** Services and parts that lines name, retired ones too: what was done is charged. */
export async function findSold(
  sql: SqlRunner,
  options: { studioId: string; ids: readonly string[] },
): Promise<Map<string, Sold>> {
  const rows = await sql.query<Sold[]>(
    `SELECT id, name, ${whole('price_minor')} AS "priceMinor", currency, tax_class AS "taxClass",
            trim_scale(tax_rate_percent)::text AS "taxRatePercent", tax_included AS "taxIncluded"
       FROM services WHERE studio_id = $1 AND id = ANY ($2::uuid[])
      UNION ALL
     SELECT id, name, ${whole('price_minor')}, currency, tax_class, NULL, NULL
       FROM parts WHERE studio_id = $1 AND id = ANY ($2::uuid[])`,
    [options.studioId, options.ids],
  );
  return new Map(rows.map((row) => [row.id, row]));
}

export async function findVisits(
  sql: SqlRunner,
  options: { studioId: string; ids: readonly string[] },
): Promise<Map<string, { clientId: string; serviceId: string }>> {
  const rows = await sql.query<{ id: string; clientId: string; serviceId: string }[]>(
    `SELECT id, client_id AS "clientId", service_id AS "serviceId" FROM appointments
      WHERE studio_id = $1 AND id = ANY ($2::uuid[])`,
    [options.studioId, options.ids],
  );
  return new Map(rows.map(({ id, ...visit }) => [id, visit]));
}
