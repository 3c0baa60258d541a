import { exportedTables, opened, PersonExport, sameClientIds, type ExportedTable } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

type Row = Record<string, unknown>;

export function findExport(tx: EntityManager, key: Key): Promise<PersonExport | null> {
  return tx.findOneBy(PersonExport, key);
}

/** A copy is there for so long: house rule. */
const keptDays = 7;

export async function markReady(tx: EntityManager, { studioId, id }: Key): Promise<void> {
  await tx.query(
    `UPDATE person_exports
        SET state = 'ready', finished_at = app_now(), expires_at = app_now() + make_interval(days => $3)
      WHERE studio_id = $1 AND id = $2 AND state = 'ordered'`,
    [studioId, id, keptDays],
  );
}

export async function markFailed(tx: EntityManager, key: Key): Promise<void> {
  await tx.update(
    PersonExport,
    { ...key, state: 'ordered' },
    { state: 'failed', finishedAt: () => 'app_now()' },
  );
}

export interface RecordsOfTable extends ExportedTable {
  readonly records: readonly Row[];
}

/** Everything that is kept of the person, table by table, under the names of the published schema. */
export async function readRecords(
  tx: EntityManager,
  of: { studioId: string; clientId: string },
): Promise<RecordsOfTable[]> {
  const clientIds = await sameClientIds(tx, of);
  await tx.query(`SELECT set_config('TimeZone', 'UTC', true)`);
  const tables: RecordsOfTable[] = [];
  for (const table of exportedTables(tx.dataSource.entityMetadatas)) {
    const rows: { row: Row }[] = await tx.query(
      `SELECT to_jsonb(t) AS row FROM ${table.table} t WHERE t.studio_id = $1 AND ${table.rows} ORDER BY t.id`,
      [of.studioId, clientIds],
    );
    const sealed = table.columns.filter((column) => column.sealed).map(({ column }) => column);
    const records = opened(rows, ...sealed).map(({ row }) =>
      Object.fromEntries(table.columns.map(({ column, name }) => [name, row[column]])),
    );
    tables.push({ ...table, records });
  }
  return tables;
}
