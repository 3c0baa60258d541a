import {
  Client,
  ClientImport,
  ClientImportRow,
  type ImportDecision,
  type ImportedFields,
} from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  readonly studioId: string;
  readonly id: string;
}

/** Who ordered the import; null when it is not on order (any more). */
export async function lockOrdered(tx: EntityManager, key: Key): Promise<string | null> {
  const row = await tx.findOne(ClientImport, {
    where: { ...key, state: 'ordered' },
    lock: { mode: 'pessimistic_write' },
  });
  return row?.orderedBy ?? null;
}

export interface ReadyRow {
  readonly id: string;
  readonly fields: ImportedFields;
  readonly decision: ImportDecision;
}

export function listReady(tx: EntityManager, of: Key & { limit: number }): Promise<ReadyRow[]> {
  return tx.query<ReadyRow[]>(
    `SELECT id, fields, decision FROM client_import_rows
      WHERE studio_id = $1 AND import_id = $2 AND state = 'ready'
      ORDER BY row_number LIMIT $3`,
    [of.studioId, of.id, of.limit],
  );
}

export async function insertClient(
  tx: EntityManager,
  studioId: string,
  { tags = [], ...fields }: ImportedFields,
): Promise<string> {
  const { identifiers } = await tx.insert(Client, { studioId, ...fields, tags: [...tags] });
  return (identifiers[0] as { id: string }).id;
}

/** What it said is the client's record now. */
export async function markImported(tx: EntityManager, key: Key, clientId: string): Promise<void> {
  await tx.update(ClientImportRow, key, { state: 'imported', clientId, cells: [], fields: null });
}

export async function leaveOut(tx: EntityManager, key: Key, clientId: string | null): Promise<void> {
  await tx.update(ClientImportRow, key, { state: 'left_out', clientId });
}

export async function markDone(tx: EntityManager, key: Key): Promise<void> {
  await tx.query(
    `UPDATE client_imports SET state = 'done', done_at = app_now(), version = version + 1
      WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
}
