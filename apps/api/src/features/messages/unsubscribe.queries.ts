import type { SqlRunner } from '@studio/database';
import type { Language } from '@studio/messages';

export interface SubscriptionRecord {
  readonly clientId: string;
  readonly unsubscribeHash: Buffer;
  readonly language: Language;
  readonly studioName: string;
}

/** Of a message that can be unsubscribed from. */
export async function findSubscription(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<SubscriptionRecord | null> {
  const rows = await sql.query<SubscriptionRecord[]>(
    `SELECT m.client_id AS "clientId", m.unsubscribe_hash AS "unsubscribeHash", m.language,
            coalesce(settings.sender_name, s.name) AS "studioName"
       FROM messages m
       JOIN studios s ON s.id = m.studio_id
       LEFT JOIN message_settings settings ON settings.studio_id = m.studio_id
      WHERE m.studio_id = $1 AND m.id = $2 AND m.client_id IS NOT NULL AND m.unsubscribe_hash IS NOT NULL`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}
