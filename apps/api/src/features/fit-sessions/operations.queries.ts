import { opened, sealedJson, SessionOperation, utcText, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { Problem } from '../../http/problem.js';
import type { OperationResponse } from './operations.dto.js';

interface OfSession {
  studioId: string;
  fitSessionId: string;
}
interface OfDevice extends OfSession {
  deviceId: string;
}

/** What is kept of an outcome, to be told again. */
export interface KeptAnswer {
  readonly answer?: object;
  readonly problem?: Problem;
  readonly standing?: object | null;
}

/** A fresh id and the time of the database. */
export async function newIdAndTime(sql: SqlRunner): Promise<{ id: string; at: Date }> {
  const [made] = await sql.query<[{ id: string; at: Date }]>('SELECT uuidv7() AS id, app_now() AS at');
  return made;
}

/** An operation as it came, and what became of it. */
export type KnownOperation = Pick<
  SessionOperation,
  'id' | 'fitSessionId' | 'kind' | 'payload' | 'state' | 'number' | 'madeAt'
> & { readonly deviceId: string; readonly sequence: number; readonly answer: KeptAnswer | null };

const known = `id, fit_session_id AS "fitSessionId", device_id AS "deviceId", sequence, kind, payload, state, number,
  made_at AS "madeAt", answer`;

const nextNumber = `(SELECT coalesce(max(number), 0) + 1 FROM session_operations
  WHERE studio_id = $1 AND fit_session_id = $2)`;

type Row = Omit<SessionOperation, 'number' | 'createdAt' | 'answer'> & { answer: KeptAnswer | null };

/** Settled, it gets the next number of the session, which is locked; waiting, none. */
export async function insertOperation(tx: EntityManager, row: Row): Promise<number | null> {
  const [{ number }] = await tx.query<[{ number: number | null }]>(
    `INSERT INTO session_operations
       (studio_id, fit_session_id, id, device_id, sequence, kind, payload, made_at, sent_by, state, answer, number)
     VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10::text, $11,
             CASE WHEN $10::text <> 'waiting' THEN ${nextNumber} END)
     RETURNING number`,
    [
      ...[row.studioId, row.fitSessionId, row.id, row.deviceId, row.sequence, row.kind],
      ...[sealedJson(row.payload), row.madeAt, row.sentBy, row.state, sealedJson(row.answer)],
    ],
  );
  return number;
}

/** One that waited is settled. */
export async function settleOperation(
  tx: EntityManager,
  { studioId, fitSessionId, id }: OfSession & { id: string },
  { state, answer }: { state: SessionOperation['state']; answer: KeptAnswer },
): Promise<number> {
  const [[{ number }]] = await tx.query<[[{ number: number }], number]>(
    `UPDATE session_operations SET state = $4, answer = $5, number = ${nextNumber}
      WHERE studio_id = $1 AND id = $3 RETURNING number`,
    [studioId, fitSessionId, id, state, sealedJson(answer)],
  );
  return number;
}

export async function listKnown(
  sql: SqlRunner,
  { studioId, ids }: { studioId: string; ids: readonly string[] },
): Promise<KnownOperation[]> {
  const rows = await sql.query<KnownOperation[]>(
    `SELECT ${known} FROM session_operations WHERE studio_id = $1 AND id = ANY ($2) AND device_id IS NOT NULL`,
    [studioId, ids],
  );
  return opened(rows, 'payload', 'answer');
}

/** The device's operation of that count, whatever its id. */
export async function findBySequence(
  sql: SqlRunner,
  key: OfDevice & { sequence: number },
): Promise<KnownOperation | null> {
  const rows = await sql.query<KnownOperation[]>(
    `SELECT ${known} FROM session_operations
      WHERE studio_id = $1 AND fit_session_id = $2 AND device_id = $3 AND sequence = $4`,
    [key.studioId, key.fitSessionId, key.deviceId, key.sequence],
  );
  return opened(rows, 'payload', 'answer')[0] ?? null;
}

/** Up to where everything of the device is settled; 0 before the first. */
export async function settledUpTo(sql: SqlRunner, of: OfDevice): Promise<number> {
  const [{ last }] = await sql.query<[{ last: number }]>(
    `SELECT coalesce(max(sequence), 0) AS last FROM session_operations
      WHERE studio_id = $1 AND fit_session_id = $2 AND device_id = $3 AND number IS NOT NULL`,
    [of.studioId, of.fitSessionId, of.deviceId],
  );
  return last;
}

/** Counted before one that waits, and not here. */
export async function listMissing(sql: SqlRunner, of: OfDevice): Promise<number[]> {
  const rows = await sql.query<{ sequence: number }[]>(
    `WITH own AS (SELECT sequence, number FROM session_operations
                   WHERE studio_id = $1 AND fit_session_id = $2 AND device_id = $3)
     SELECT sequence::integer
       FROM generate_series((SELECT coalesce(max(sequence), 0) + 1 FROM own WHERE number IS NOT NULL),
                            (SELECT max(sequence) FROM own WHERE number IS NULL)) AS sequence
      WHERE sequence NOT IN (SELECT sequence FROM own)
      ORDER BY sequence LIMIT 100`,
    [of.studioId, of.fitSessionId, of.deviceId],
  );
  return rows.map(({ sequence }) => sequence);
}

/** In the order of being carried out. */
export async function listOperations(
  sql: SqlRunner,
  page: OfSession & { after: number; limit: number },
): Promise<OperationResponse[]> {
  const rows = await sql.query<(Omit<OperationResponse, keyof KeptAnswer> & { kept: KeptAnswer })[]>(
    `SELECT id, number, device_id AS "deviceId", sequence, kind, payload, state, answer AS kept, sent_by AS "sentBy",
            ${utcText('made_at')} AS "madeAt"
       FROM session_operations
      WHERE studio_id = $1 AND fit_session_id = $2 AND number > $3
      ORDER BY number LIMIT $4`,
    [page.studioId, page.fitSessionId, page.after, page.limit],
  );
  return opened(rows, 'payload', 'kept').map(({ kept, ...row }) => ({ ...row, ...toOutcome(kept) }));
}

export const toOutcome = (
  kept: KeptAnswer,
): { answer: object | null; problem: Problem | null; standing: object | null } => ({
  answer: kept.answer ?? null,
  problem: kept.problem ?? null,
  standing: kept.standing ?? null,
});
