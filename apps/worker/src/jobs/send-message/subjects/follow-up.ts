import { secretHash, tenantToken } from '@studio/database';
import { createHmac } from 'node:crypto';
import type { Subject } from './subject.js';

/** Longer than any built-in plan waits for an answer: a late one is taken too. */
const linkDays = 60;

/** The one-time link to a follow-up: made as the mail goes out, and the same in the reminder. */
export const followUpSubject = (options: { publicUrl: string; linkSecret: string }): Subject => ({
  async prepare(tx, { studioId, subjectId: id, messageId }) {
    const rows = await tx.query<{ sessionOn: string }[]>(
      `SELECT to_char(f.signed_at AT TIME ZONE s.time_zone, 'YYYY-MM-DD') AS "sessionOn"
         FROM follow_ups u
         JOIN fit_sessions f ON f.studio_id = u.studio_id AND f.id = u.fit_session_id
         JOIN studios s ON s.id = u.studio_id
        WHERE u.studio_id = $1 AND u.id = $2 AND u.state IN ('sent', 'reminded')`,
      [studioId, id],
    );
    if (!rows[0]) return null;
    const secret = createHmac('sha256', options.linkSecret).update(`${studioId}/${id}`).digest('base64url');
    await tx.query(
      `UPDATE follow_ups
          SET link_hash = $3, message_id = $4,
              link_expires_at = coalesce(link_expires_at, app_now() + make_interval(days => $5))
        WHERE studio_id = $1 AND id = $2`,
      [studioId, id, secretHash(secret), messageId, linkDays],
    );
    const link = `${options.publicUrl}/follow-up/${tenantToken({ studioId, id, secret })}`;
    return { values: { link, sessionOn: rows[0].sessionOn } };
  },
});
