import { SessionOperation, utcText, type SqlRunner } from '@studio/database';
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

type Row = Omit<SessionOperation, 'number' | 'createdAt' | 'answer'> & { answer: KeptAnswer | null };

/** Settled, it gets the next number of the session, which is locked; waiting, none. */
export async function insertOperation(tx: EntityManager, row: Row): Promise<number | null> {
  const number = row.state === 'waiting' ? null : await nextNumber(tx, row);
  await tx.insert(SessionOperation, { ...row, number });
  return number;
}

/** One that waited is settled. */
export async function settleOperation(
  tx: EntityManager,
  { studioId, fitSessionId, id }: OfSession & { id: string },
  outcome: { state: SessionOperation['state']; answer: KeptAnswer },
): Promise<number> {
  const number = await nextNumber(tx, { studioId, fitSessionId });
  await tx.update(SessionOperation, { studioId, id }, { ...outcome, number });
  return number;
}

async function nextNumber(tx: EntityManager, { studioId, fitSessionId }: OfSession): Promise<number> {
  const [{ next }] = await tx.query<[{ next: number }]>(
    `SELECT coalesce(max(number), 0) + 1 AS next FROM session_operations
      WHERE studio_id = $1 AND fit_session_id = $2`,
    [studioId, fitSessionId],
  );
  return next;
}

export function findOperation(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<SessionOperation | null> {
  return tx.findOneBy(SessionOperation, key);
}

/** The device's operation of that count, whatever its id. */
export function findBySequence(
  tx: EntityManager,
  key: OfDevice & { sequence: number },
): Promise<SessionOperation | null> {
  return tx.findOneBy(SessionOperation, key);
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
  return rows.map(({ kept, ...row }) => ({ ...row, ...toOutcome(kept) }));
}

export const toOutcome = (
  kept: KeptAnswer,
): { answer: object | null; problem: Problem | null; standing: object | null } => ({
  answer: kept.answer ?? null,
  problem: kept.problem ?? null,
  standing: kept.standing ?? null,
});
