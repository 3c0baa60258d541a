import { PasswordLink, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export interface LinkToSend {
  reason: 'invitation' | 'reset';
  displayName: string;
  email: string;
  studioName: string;
}

/** Null when the link was used or has run out, or the person may no longer sign in. */
export async function findLinkToSend(sql: SqlRunner, key: Key): Promise<LinkToSend | null> {
  const rows = await sql.query<LinkToSend[]>(
    `SELECT l.reason, u.display_name AS "displayName", u.email, s.name AS "studioName"
       FROM password_links l
       JOIN users u ON u.studio_id = l.studio_id AND u.id = l.user_id
       JOIN studios s ON s.id = l.studio_id
      WHERE l.studio_id = $1 AND l.id = $2 AND l.used_at IS NULL AND l.expires_at > app_now()
        AND u.disabled_at IS NULL`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** The link works from before the mail goes out. */
export async function prepareLink(
  tx: EntityManager,
  key: Key,
  link: { linkHash: Buffer; messageId: string },
): Promise<void> {
  await tx.update(PasswordLink, key, link);
}

export async function markSent(tx: EntityManager, key: Key): Promise<void> {
  await tx.update(PasswordLink, key, { sentAt: () => 'app_now()' });
}
