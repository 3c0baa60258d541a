import {
  ClientImport,
  ClientImportRow,
  type ImportDecision,
  type ImportedFields,
  type ImportRowState,
  type ImportState,
  type SqlRunner,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { FieldProblem } from '../../http/problem.js';
import type { Mapping } from './read-row.js';

interface Key {
  readonly studioId: string;
  readonly id: string;
}

const utc = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

const columns = `i.id, i.state, i.charset, i.separator, i.headers, i.mapping, ${utc('i.created_at')} AS "uploadedAt",
  ${utc('i.done_at')} AS "doneAt", i.version,
  (SELECT json_build_object(
            'unread', count(*) FILTER (WHERE r.state = 'unread'), 'ready', count(*) FILTER (WHERE r.state = 'ready'),
            'invalid', count(*) FILTER (WHERE r.state = 'invalid'),
            'imported', count(*) FILTER (WHERE r.state = 'imported'),
            'leftOut', count(*) FILTER (WHERE r.state = 'left_out'))
     FROM client_import_rows r WHERE r.studio_id = i.studio_id AND r.import_id = i.id) AS rows`;

export interface ImportRecord {
  readonly id: string;
  readonly state: ImportState;
  readonly charset: string;
  readonly separator: string;
  readonly headers: string[];
  readonly mapping: Mapping | null;
  readonly uploadedAt: string;
  readonly doneAt: string | null;
  readonly version: number;
  readonly rows: { unread: number; ready: number; invalid: number; imported: number; leftOut: number };
}

export async function insertImport(
  tx: EntityManager,
  row: Pick<ClientImport, 'studioId' | 'charset' | 'separator' | 'headers' | 'uploadedBy'>,
): Promise<string> {
  const { identifiers } = await tx.insert(ClientImport, row);
  return (identifiers[0] as { id: string }).id;
}

/** In one statement, in the order of the list. */
export async function insertRows(
  tx: EntityManager,
  of: { studioId: string; importId: string },
  rows: readonly (readonly string[])[],
): Promise<void> {
  await tx.query(
    `INSERT INTO client_import_rows (studio_id, import_id, row_number, cells)
     SELECT $1, $2, at, ARRAY(SELECT jsonb_array_elements_text(cells))
       FROM jsonb_array_elements($3::jsonb) WITH ORDINALITY AS list (cells, at) ORDER BY at`,
    [of.studioId, of.importId, JSON.stringify(rows)],
  );
}

export async function findImport(sql: SqlRunner, key: Key): Promise<ImportRecord | null> {
  const rows = await sql.query<ImportRecord[]>(
    `SELECT ${columns} FROM client_imports i WHERE i.studio_id = $1 AND i.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

export function listImports(
  sql: SqlRunner,
  page: { studioId: string; after: string | null; limit: number },
): Promise<ImportRecord[]> {
  return sql.query<ImportRecord[]>(
    `SELECT ${columns} FROM client_imports i
      WHERE i.studio_id = $1 AND ($2::uuid IS NULL OR i.id > $2) ORDER BY i.id LIMIT $3`,
    [page.studioId, page.after, page.limit],
  );
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateImport(
  tx: EntityManager,
  key: Key & { version: number },
  fields: { state: ImportState; mapping?: Mapping; orderedBy?: string },
): Promise<boolean> {
  const { affected } = await tx.update(ClientImport, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

export async function deleteImport(tx: EntityManager, key: Key & { version: number }): Promise<boolean> {
  const { affected } = await tx.delete(ClientImport, key);
  return affected === 1;
}

export interface RowRecord {
  readonly id: string;
  readonly row: number;
  readonly state: ImportRowState;
  readonly decision: ImportDecision;
  readonly cells: string[];
  readonly fields: ImportedFields | null;
  readonly problems: FieldProblem[];
  readonly sameAsRow: number | null;
  readonly clientId: string | null;
}

const rowColumns = `id, row_number AS row, state, decision, cells, fields, problems, same_as_row AS "sameAsRow",
  client_id AS "clientId"`;

export function listRows(
  sql: SqlRunner,
  page: {
    studioId: string;
    importId: string;
    state: ImportRowState | null;
    after: string | null;
    limit: number;
  },
): Promise<RowRecord[]> {
  return sql.query<RowRecord[]>(
    `SELECT ${rowColumns} FROM client_import_rows
      WHERE studio_id = $1 AND import_id = $2 AND ($3::text IS NULL OR state = $3)
        AND ($4::uuid IS NULL OR row_number > (SELECT row_number FROM client_import_rows
                                                WHERE studio_id = $1 AND import_id = $2 AND id = $4))
      ORDER BY row_number LIMIT $5`,
    [page.studioId, page.importId, page.state, page.after, page.limit],
  );
}

export async function findRow(sql: SqlRunner, key: Key): Promise<(RowRecord & { importId: string }) | null> {
  const rows = await sql.query<(RowRecord & { importId: string })[]>(
    `SELECT ${rowColumns}, import_id AS "importId" FROM client_import_rows WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** What each row was found to say. */
export async function writeRows(
  tx: EntityManager,
  of: { studioId: string; importId: string },
  rows: readonly {
    id: string;
    fields: ImportedFields | null;
    problems: FieldProblem[];
    sameAsRow: number | null;
  }[],
): Promise<void> {
  await tx.query(
    `UPDATE client_import_rows r
        SET fields = said.fields, problems = said.problems, same_as_row = said."sameAsRow",
            state = CASE WHEN said.fields IS NULL THEN 'invalid' ELSE 'ready' END
       FROM jsonb_to_recordset($3::jsonb) AS said (id uuid, fields jsonb, problems jsonb, "sameAsRow" integer)
      WHERE r.studio_id = $1 AND r.import_id = $2 AND r.id = said.id`,
    [of.studioId, of.importId, JSON.stringify(rows)],
  );
}

export async function decideRow(tx: EntityManager, key: Key, decision: ImportDecision): Promise<void> {
  await tx.update(ClientImportRow, key, { decision });
}
