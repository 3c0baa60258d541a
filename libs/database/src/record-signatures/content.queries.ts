import type { EntityManager } from 'typeorm';

export type Row = Readonly<Record<string, unknown>>;

/** What a signature covers: the session's own row, and the rows of every table the database keeps once it is signed. */
export interface SignedContent {
  readonly session: Row;
  readonly parts: Readonly<Record<string, readonly Row[]>>;
}

/** Set by the signature itself. */
const ofSignature = ['signed_at', 'signed_by', 'content_hash', 'version'];

/** The tables guarded by `keep_signed_part`: what the database keeps is what is signed, and no list can forget one. */
async function partTables(tx: EntityManager): Promise<string[]> {
  const rows: { name: string }[] = await tx.query(
    `SELECT DISTINCT c.relname AS name
       FROM pg_trigger t JOIN pg_proc p ON p.oid = t.tgfoid JOIN pg_class c ON c.oid = t.tgrelid
      WHERE p.proname = 'keep_signed_part' ORDER BY c.relname`,
  );
  return rows.map(({ name }) => name);
}

/** The content of each session as it stands now; of one that is gone, an empty row and no parts. */
export async function readSessionContents(
  tx: EntityManager,
  { studioId, fitSessionIds }: { studioId: string; fitSessionIds: readonly string[] },
): Promise<ReadonlyMap<string, SignedContent>> {
  await inUtc(tx);
  const found = new Map<string, { session: Row; parts: Record<string, Row[]> }>(
    fitSessionIds.map((id) => [id, { session: {}, parts: {} }]),
  );
  const sessions: { id: string; row: Row }[] = await tx.query(
    `SELECT id, to_jsonb(s) - $3::text[] AS row FROM fit_sessions s WHERE studio_id = $1 AND id = ANY ($2)`,
    [studioId, fitSessionIds, ofSignature],
  );
  for (const { id, row } of sessions) {
    const content = found.get(id);
    if (content) content.session = row;
  }
  for (const table of await partTables(tx)) {
    for (const { parts } of found.values()) parts[table] = [];
    const rows: { id: string; row: Row }[] = await tx.query(
      `SELECT fit_session_id AS id, to_jsonb(p) AS row FROM ${table} p
        WHERE studio_id = $1 AND fit_session_id = ANY ($2) ORDER BY p.id`,
      [studioId, fitSessionIds],
    );
    for (const { id, row } of rows) found.get(id)?.parts[table]?.push(row);
  }
  return found;
}

/** Each amendment as it stands now, by its id. */
export async function readAmendments(
  tx: EntityManager,
  { studioId, amendmentIds }: { studioId: string; amendmentIds: readonly string[] },
): Promise<ReadonlyMap<string, Row>> {
  await inUtc(tx);
  const rows: { id: string; row: Row }[] = await tx.query(
    `SELECT id, to_jsonb(a) AS row FROM amendments a WHERE studio_id = $1 AND id = ANY ($2)`,
    [studioId, amendmentIds],
  );
  return new Map(rows.map(({ id, row }) => [id, row]));
}

/** An instant as JSON takes the connection's zone. */
async function inUtc(tx: EntityManager): Promise<void> {
  await tx.query(`SELECT set_config('TimeZone', 'UTC', true)`);
}
