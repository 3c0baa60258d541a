import { PersonExport, type SqlRunner, survivorOf } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export async function insertExport(
  tx: EntityManager,
  row: Pick<PersonExport, 'studioId' | 'requestId' | 'clientId' | 'orderedBy'>,
): Promise<PersonExport> {
  return tx.save(tx.create(PersonExport, row));
}

export function findExport(tx: EntityManager, key: Key): Promise<PersonExport | null> {
  return tx.findOneBy(PersonExport, key);
}

export function findExportForUpdate(tx: EntityManager, key: Key): Promise<PersonExport | null> {
  return tx.findOne(PersonExport, { where: key, lock: { mode: 'pessimistic_write' } });
}

export function listExports(
  tx: EntityManager,
  of: { studioId: string; requestId: string },
): Promise<PersonExport[]> {
  return tx.find(PersonExport, { where: of, order: { id: 'ASC' } });
}

export function hasReadyExport(
  tx: EntityManager,
  of: { studioId: string; requestId: string },
): Promise<boolean> {
  return tx.existsBy(PersonExport, { ...of, state: 'ready' });
}

/** The link is used up. */
export async function markFetched(tx: EntityManager, key: Key): Promise<void> {
  await tx.update(PersonExport, key, { linkHash: null, fetchedAt: () => 'app_now()' });
}

export async function mayBeMailed(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT 1 FROM clients of
       JOIN clients c ON c.studio_id = of.studio_id AND c.id = ${survivorOf('of')}
      WHERE of.studio_id = $1 AND of.id = $2 AND app_may_contact($1, $2)
        AND c.email IS NOT NULL AND c.email IS DISTINCT FROM c.undeliverable_email`,
    [of.studioId, of.clientId],
  );
  return rows.length > 0;
}
