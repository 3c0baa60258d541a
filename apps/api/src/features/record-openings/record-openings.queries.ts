import { opened, RecordOpening, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { RecordOpeningResponse } from './record-openings.dto.js';

/** Whether the person, under whichever of their records, asked that it only be kept. */
export async function isRestricted(
  sql: SqlRunner,
  { studioId, clientId }: { studioId: string; clientId: string },
): Promise<boolean> {
  const rows = await sql.query<unknown[]>(
    `SELECT FROM clients
      WHERE studio_id = $1 AND id IN (SELECT * FROM app_same_client($1, $2)) AND restricted_at IS NOT NULL`,
    [studioId, clientId],
  );
  return rows.length > 0;
}

/** Open from now for an hour. */
export async function insertOpening(
  tx: EntityManager,
  row: Pick<RecordOpening, 'studioId' | 'clientId' | 'openedBy' | 'ground' | 'reason'>,
): Promise<string> {
  const expiresAt = () => `app_now() + interval '1 hour'`;
  const { identifiers } = await tx.insert(RecordOpening, { ...row, expiresAt });
  return (identifiers[0] as { id: string }).id;
}

/** Newest first. */
export async function listOpenings(
  sql: SqlRunner,
  page: { studioId: string; id?: string; clientId?: string; after?: string; limit: number },
): Promise<RecordOpeningResponse[]> {
  const rows = await sql.query<RecordOpeningResponse[]>(
    `SELECT o.id, o.client_id AS "clientId", o.opened_by AS "openedBy", u.display_name AS "openedByName", o.ground,
            o.reason, o.created_at AS "openedAt", o.expires_at AS "expiresAt"
       FROM record_openings o JOIN users u ON u.studio_id = o.studio_id AND u.id = o.opened_by
      WHERE o.studio_id = $1 AND ($2::uuid IS NULL OR o.id = $2)
        AND ($3::uuid IS NULL OR o.client_id IN (SELECT * FROM app_same_client($1, $3)))
        AND ($4::uuid IS NULL OR o.id < $4)
      ORDER BY o.id DESC LIMIT $5`,
    [page.studioId, page.id ?? null, page.clientId ?? null, page.after ?? null, page.limit],
  );
  return opened(rows, 'reason');
}

export async function listOwnerIds(sql: SqlRunner, studioId: string): Promise<string[]> {
  const rows = await sql.query<{ id: string }[]>(
    `SELECT id FROM users WHERE studio_id = $1 AND 'owner' = ANY (roles) AND disabled_at IS NULL ORDER BY id`,
    [studioId],
  );
  return rows.map(({ id }) => id);
}
