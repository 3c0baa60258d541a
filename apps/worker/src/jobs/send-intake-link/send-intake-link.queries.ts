import { IntakeLink, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export interface IntakeToSend {
  /** Neither revoked, nor handed in, nor run out. */
  isOpen: boolean;
  givenName: string;
  email: string | null;
  mayBeContacted: boolean;
  studioName: string;
}

export async function findIntakeToSend(sql: SqlRunner, key: Key): Promise<IntakeToSend | null> {
  const rows = await sql.query<IntakeToSend[]>(
    `SELECT l.revoked_at IS NULL AND l.submitted_at IS NULL AND l.expires_at > app_now() AS "isOpen",
            c.given_name AS "givenName", c.email, s.name AS "studioName",
            NOT c.do_not_contact AND EXISTS (SELECT 1 FROM client_consents k
                     WHERE k.studio_id = l.studio_id AND k.client_id = l.client_id
                       AND k.kind = 'contact' AND k.withdrawn_at IS NULL) AS "mayBeContacted"
       FROM intake_links l
       JOIN clients c ON c.studio_id = l.studio_id AND c.id = l.client_id
       JOIN studios s ON s.id = l.studio_id
      WHERE l.studio_id = $1 AND l.id = $2`,
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
  await tx.update(IntakeLink, key, link);
}

export async function markSent(tx: EntityManager, key: Key): Promise<void> {
  await tx.update(IntakeLink, key, { sentAt: () => 'app_now()' });
}
