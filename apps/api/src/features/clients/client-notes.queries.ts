import { ClientNote, opened, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { NoteResponse } from './client-notes.dto.js';

const utc = (expression: string): string =>
  `to_char(${expression} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

const columns = `n.id, n.text, n.written_by AS "writtenBy", ${utc('n.created_at')} AS "writtenAt",
  coalesce((
    SELECT json_agg(json_build_object('id', c.id, 'text', c.text, 'writtenBy', c.written_by,
                                      'writtenAt', ${utc('c.created_at')}) ORDER BY c.id)
      FROM client_notes c WHERE c.studio_id = n.studio_id AND c.corrects_id = n.id), '[]') AS corrections`;

export async function insertNote(
  tx: EntityManager,
  row: Pick<ClientNote, 'studioId' | 'clientId' | 'text' | 'correctsId' | 'writtenBy'>,
): Promise<string> {
  const { identifiers } = await tx.insert(ClientNote, row);
  return (identifiers[0] as { id: string }).id;
}

/** The client a note is about; null for a correction, which is itself not corrected. */
export async function findNotedClient(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<string | null> {
  const rows = await sql.query<{ clientId: string }[]>(
    `SELECT client_id AS "clientId" FROM client_notes WHERE studio_id = $1 AND id = $2 AND corrects_id IS NULL`,
    [key.studioId, key.id],
  );
  return rows[0]?.clientId ?? null;
}

export async function getNote(sql: SqlRunner, key: { studioId: string; id: string }): Promise<NoteResponse> {
  const [row] = await sql.query<[NoteResponse]>(
    `SELECT ${columns} FROM client_notes n WHERE n.studio_id = $1 AND n.id = $2`,
    [key.studioId, key.id],
  );
  return opened(row, 'text');
}

/** Newest first, of every record of the person. */
export async function listNotes(
  sql: SqlRunner,
  page: { studioId: string; clientId: string; after: string | null; limit: number },
): Promise<NoteResponse[]> {
  const rows = await sql.query<NoteResponse[]>(
    `SELECT ${columns} FROM client_notes n
      WHERE n.studio_id = $1 AND n.client_id IN (SELECT * FROM app_same_client($1, $2)) AND n.corrects_id IS NULL
        AND ($3::uuid IS NULL OR n.id < $3)
      ORDER BY n.id DESC LIMIT $4`,
    [page.studioId, page.clientId, page.after, page.limit],
  );
  return opened(rows, 'text');
}
