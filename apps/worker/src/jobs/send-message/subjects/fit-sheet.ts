import { secretHash, tenantToken } from '@studio/database';
import { createHmac } from 'node:crypto';
import type { Subject } from './subject.js';

/** House rule: long enough to take it to a workshop. */
const linkDays = 30;

/** The link to a rider's sheet: made as the mail goes out, and the same however often it is sent. */
export const fitSheetSubject = (options: { publicUrl: string; linkSecret: string }): Subject => ({
  async prepare(tx, { studioId, subjectId: id }) {
    const secret = createHmac('sha256', options.linkSecret)
      .update(`fit-sheet/${studioId}/${id}`)
      .digest('base64url');
    const [rows] = await tx.query<[{ id: string }[], number]>(
      `UPDATE fit_sheets
          SET link_hash = $3, link_expires_at = coalesce(link_expires_at, app_now() + make_interval(days => $4))
        WHERE studio_id = $1 AND id = $2 AND state = 'ready' RETURNING id`,
      [studioId, id, secretHash(secret), linkDays],
    );
    if (rows.length === 0) return null;
    return { values: { link: `${options.publicUrl}/fit-sheets/${tenantToken({ studioId, id, secret })}` } };
  },
});
