import type { EntityManager } from 'typeorm';

export type Row = Readonly<Record<string, unknown>>;

/** What a signature covers: the session's own row, and the rows of every table the database keeps once it is signed. */
export interface SignedContent {
  readonly session: Row;
  readonly parts: Readonly<Record<string, readonly Row[]>>;
}

interface Key {
  readonly studioId: string;
  readonly fitSessionId: string;
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

/** The content as it stands now. */
export async function readSessionContent(tx: EntityManager, key: Key): Promise<SignedContent> {
  await inUtc(tx);
  const sessions: { row: Row }[] = await tx.query(
    `SELECT to_jsonb(s) - $3::text[] AS row FROM fit_sessions s WHERE studio_id = $1 AND id = $2`,
    [key.studioId, key.fitSessionId, ofSignature],
  );
  const parts: Record<string, readonly Row[]> = {};
  for (const table of await partTables(tx)) {
    const rows: { row: Row }[] = await tx.query(
      `SELECT to_jsonb(p) AS row FROM ${table} p WHERE studio_id = $1 AND fit_session_id = $2 ORDER BY id`,
      [key.studioId, key.fitSessionId],
    );
    parts[table] = rows.map(({ row }) => row);
  }
  return { session: sessions[0]?.row ?? {}, parts };
}

export async function readAmendmentContent(
  tx: EntityManager,
  { studioId, amendmentId }: { studioId: string; amendmentId: string },
): Promise<Row> {
  await inUtc(tx);
  const rows: { row: Row }[] = await tx.query(
    `SELECT to_jsonb(a) AS row FROM amendments a WHERE studio_id = $1 AND id = $2`,
    [studioId, amendmentId],
  );
  return rows[0]?.row ?? {};
}

/** An instant as JSON takes the connection's zone. */
async function inUtc(tx: EntityManager): Promise<void> {
  await tx.query(`SELECT set_config('TimeZone', 'UTC', true)`);
}
