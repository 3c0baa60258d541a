import {
  DepositUse,
  Payment,
  utcText,
  type PaymentKind,
  type PaymentMethod,
  type SqlRunner,
  whenGiven,
} from '@studio/database';
import type { EntityManager } from 'typeorm';

export interface PaymentRecord {
  readonly id: string;
  readonly kind: PaymentKind;
  readonly method: PaymentMethod;
  readonly amountMinor: number;
  readonly currency: string;
  readonly clientId: string | null;
  readonly documentId: string | null;
  readonly depositId: string | null;
  readonly reversesId: string | null;
  readonly note: string | null;
  readonly recordedAt: string;
  readonly recordedBy: string;
  readonly unusedMinor: number | null;
  readonly reversed: boolean;
}

/** Of a deposit: what was taken, less what was given back of it, taken back as a mistake, or counted towards receipts. */
const unused = `p.amount_minor
  + coalesce((SELECT sum(o.amount_minor) FROM payments o
               WHERE o.studio_id = p.studio_id AND (o.deposit_id = p.id OR o.reverses_id = p.id)), 0)
  - coalesce((SELECT sum(u.amount_minor) FROM deposit_uses u
               WHERE u.studio_id = p.studio_id AND u.deposit_id = p.id), 0)`;

export const unusedDeposit = `CASE WHEN p.kind = 'deposit' THEN (${unused})::float8 END`;

// A payment is reversed once. Asked for as a value: for an EXISTS PostgreSQL may read all payments of the studio.
const columns = `p.id, p.kind, p.method, p.amount_minor::float8 AS "amountMinor", p.currency,
  p.client_id AS "clientId", p.document_id AS "documentId", p.deposit_id AS "depositId",
  p.reverses_id AS "reversesId", p.note, ${utcText('p.created_at')} AS "recordedAt",
  p.recorded_by AS "recordedBy", ${unusedDeposit} AS "unusedMinor",
  (SELECT r.id FROM payments r WHERE r.studio_id = p.studio_id AND r.reverses_id = p.id) IS NOT NULL AS reversed`;

export async function findPayment(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<PaymentRecord | null> {
  const rows = await sql.query<PaymentRecord[]>(
    `SELECT ${columns} FROM payments p WHERE p.studio_id = $1 AND p.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export function listPayments(
  sql: SqlRunner,
  page: {
    studioId: string;
    clientId: string | null;
    documentId: string | null;
    after: string | null;
    limit: number;
  },
): Promise<PaymentRecord[]> {
  return sql.query<PaymentRecord[]>(
    `SELECT ${columns} FROM payments p
      WHERE p.studio_id = $1 AND ${whenGiven(page.clientId, '$2::uuid', 'p.client_id IN (SELECT * FROM app_same_client($1, $2))')}
        AND ${whenGiven(page.documentId, '$3::uuid', 'p.document_id = $3')}
        AND ${whenGiven(page.after, '$4::uuid', 'p.id > $4')}
      ORDER BY p.id LIMIT $5`,
    [page.studioId, page.clientId, page.documentId, page.after, page.limit],
  );
}

/** Deposits of a client wait for one another: nobody may change a row of money, so the client's is locked. */
export async function lockClient(
  tx: EntityManager,
  key: { studioId: string; clientId: string },
): Promise<void> {
  await tx.query('SELECT FROM clients WHERE studio_id = $1 AND id = $2 FOR NO KEY UPDATE', [
    key.studioId,
    key.clientId,
  ]);
}

export async function insertPayment(
  tx: EntityManager,
  row: Omit<Payment, 'id' | 'createdAt'>,
): Promise<string> {
  const { identifiers } = await tx.insert(Payment, row);
  return (identifiers[0] as { id: string }).id;
}

export async function insertDepositUse(
  tx: EntityManager,
  row: Omit<DepositUse, 'id' | 'createdAt'>,
): Promise<string> {
  const { identifiers } = await tx.insert(DepositUse, row);
  return (identifiers[0] as { id: string }).id;
}
