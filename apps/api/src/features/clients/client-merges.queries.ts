import { Client, ClientMerge, opened, type SqlRunner } from '@studio/database';
import { In, type EntityManager } from 'typeorm';
import type { ClientMergeResponse } from './client-merges.dto.js';
import type { MergedFields } from './merge-fields.js';

interface Key {
  readonly studioId: string;
  readonly id: string;
}

const utc = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** In the order of their ids, so that two merges of the same clients wait for each other and not in a circle. */
export async function lockClients(
  tx: EntityManager,
  { studioId, ids }: { studioId: string; ids: readonly string[] },
): Promise<Map<string, Client>> {
  const rows = await tx.find(Client, {
    where: { studioId, id: In([...ids]) },
    order: { id: 'ASC' },
    lock: { mode: 'pessimistic_write' },
  });
  return new Map(rows.map((row) => [row.id, row]));
}

/** @returns the records that had been merged into `from` before */
export async function pointTo(
  tx: EntityManager,
  { studioId, from, to }: { studioId: string; from: string; to: string },
): Promise<string[]> {
  const [moved] = await tx.query<[{ id: string }[], number]>(
    `UPDATE clients SET merged_into = $3, version = version + 1
      WHERE studio_id = $1 AND merged_into = $2 RETURNING id`,
    [studioId, from, to],
  );
  await tx.query(
    `UPDATE clients SET merged_into = $3, merged_at = app_now(), version = version + 1
      WHERE studio_id = $1 AND id = $2`,
    [studioId, from, to],
  );
  return moved.map(({ id }) => id);
}

export async function pointBack(
  tx: EntityManager,
  { studioId, mergedId, movedIds }: Pick<ClientMerge, 'studioId' | 'mergedId' | 'movedIds'>,
): Promise<void> {
  await tx.query(
    `UPDATE clients SET merged_into = NULL, merged_at = NULL, version = version + 1
      WHERE studio_id = $1 AND id = $2`,
    [studioId, mergedId],
  );
  await tx.query(
    `UPDATE clients SET merged_into = $2, version = version + 1 WHERE studio_id = $1 AND id = ANY ($3)`,
    [studioId, mergedId, movedIds],
  );
}

export async function writeFields(tx: EntityManager, client: Client, fields: MergedFields): Promise<void> {
  const { studioId, id, version } = client;
  await tx.update(Client, { studioId, id }, { ...fields, version: version + 1 });
}

export async function insertMerge(
  tx: EntityManager,
  row: Omit<ClientMerge, 'id' | 'createdAt' | 'undoneAt' | 'undoneBy'>,
): Promise<string> {
  const { identifiers } = await tx.insert(ClientMerge, row);
  return (identifiers[0] as { id: string }).id;
}

export function findMergeForUpdate(tx: EntityManager, key: Key): Promise<ClientMerge | null> {
  return tx.findOne(ClientMerge, { where: key, lock: { mode: 'pessimistic_write' } });
}

/** A standing merge after this one that the surviving record took part in. */
export async function findLaterMerge(sql: SqlRunner, merge: ClientMerge): Promise<string | null> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT id FROM client_merges
      WHERE studio_id = $1 AND id > $2 AND undone_at IS NULL AND (surviving_id = $3 OR merged_id = $3)
      ORDER BY id DESC LIMIT 1`,
    [merge.studioId, merge.id, merge.survivingId],
  );
  return rows[0]?.id ?? null;
}

export async function markUndone(tx: EntityManager, key: Key, undoneBy: string): Promise<void> {
  await tx.update(ClientMerge, key, { undoneAt: () => 'app_now()', undoneBy });
}

const columns = `m.id, m.surviving_id AS "survivingClientId", m.merged_id AS "mergedClientId",
  m.fields_after AS "fieldsAfter",
  json_build_object('givenName', c.given_name, 'familyName', c.family_name, 'email', c.email, 'phone', c.phone,
                    'bornOn', to_char(c.born_on, 'YYYY-MM-DD')) AS merged,
  ${utc('m.created_at')} AS "mergedAt", m.merged_by AS "mergedBy",
  ${utc('m.undone_at')} AS "undoneAt", m.undone_by AS "undoneBy"`;
const tables = `client_merges m JOIN clients c ON c.studio_id = m.studio_id AND c.id = m.merged_id`;

type MergeRow = Omit<ClientMergeResponse, 'completed'> & { fieldsAfter: object };

const toMerges = (rows: readonly MergeRow[]): ClientMergeResponse[] =>
  opened(rows, 'fieldsAfter').map(({ fieldsAfter, ...row }) => ({
    ...row,
    completed: Object.keys(fieldsAfter) as ClientMergeResponse['completed'],
  }));

export async function findMerge(sql: SqlRunner, key: Key): Promise<ClientMergeResponse | null> {
  const rows = await sql.query<MergeRow[]>(
    `SELECT ${columns} FROM ${tables} WHERE m.studio_id = $1 AND m.id = $2`,
    [key.studioId, key.id],
  );
  return toMerges(rows)[0] ?? null;
}

/** Of every record of the person, newest first. */
export async function listMerges(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<ClientMergeResponse[]> {
  const rows = await sql.query<MergeRow[]>(
    `SELECT ${columns} FROM ${tables}
      WHERE m.studio_id = $1
        AND (m.surviving_id IN (SELECT * FROM app_same_client($1, $2))
             OR m.merged_id IN (SELECT * FROM app_same_client($1, $2)))
      ORDER BY m.id DESC`,
    [of.studioId, of.clientId],
  );
  return toMerges(rows);
}
