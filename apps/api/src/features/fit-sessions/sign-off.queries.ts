import { Amendment, FitSession, SessionAdvice, type SqlRunner } from '@studio/database';
import type { SheetLanguage } from '@studio/fit-sheet';
import { languageFor } from '@studio/messages';
import type { EntityManager } from 'typeorm';

interface OfSession {
  readonly studioId: string;
  readonly fitSessionId: string;
}

export const adviceColumns = {
  stage: 'stage',
  adviceVersion: 'advice_version',
  language: 'language',
  items: 'items',
  writtenBy: 'written_by',
  version: 'version',
};

export async function insertAdvice(
  tx: EntityManager,
  row: Omit<SessionAdvice, 'id' | 'createdAt'>,
): Promise<void> {
  await tx.insert(SessionAdvice, row);
}

/** Changes it while it has the version the change was made from; tells whether it did. */
export async function updateAdvice(
  tx: EntityManager,
  { version, ...of }: OfSession & { version: number },
  fields: Pick<SessionAdvice, 'items' | 'writtenBy'>,
): Promise<boolean> {
  const { affected } = await tx.update(
    SessionAdvice,
    { ...of, version },
    { ...fields, version: version + 1 },
  );
  return affected === 1;
}

/** What the client reads, or else the language of the studio. */
export async function findLanguage(
  sql: SqlRunner,
  of: { studioId: string; clientId: string },
): Promise<SheetLanguage> {
  const rows = await sql.query<{ ofClient: string | null; ofStudio: SheetLanguage | null }[]>(
    `SELECT c.language AS "ofClient", s.language AS "ofStudio"
       FROM clients c LEFT JOIN message_settings s ON s.studio_id = c.studio_id
      WHERE c.studio_id = $1 AND c.id = $2`,
    [of.studioId, of.clientId],
  );
  return languageFor(rows[0]?.ofClient ?? null, rows[0]?.ofStudio ?? 'en');
}

export async function insertAmendment(
  tx: EntityManager,
  row: Omit<Amendment, 'id' | 'createdAt'>,
): Promise<string> {
  const { identifiers } = await tx.insert(Amendment, row);
  return (identifiers[0] as { id: string }).id;
}

export async function signSession(
  tx: EntityManager,
  key: { studioId: string; id: string },
  signature: { signedBy: string; signedAt: Date; contentHash: string },
): Promise<void> {
  await tx.update(FitSession, key, signature);
}
