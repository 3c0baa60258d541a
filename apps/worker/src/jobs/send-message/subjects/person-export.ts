import { secretHash, tenantToken } from '@studio/database';
import { createHmac } from 'node:crypto';
import type { Subject } from './subject.js';

/** The link to a person's copy: it works from before the mail goes out, once, and is the same however often it is sent. */
export const personExportSubject = (options: { publicUrl: string; linkSecret: string }): Subject => ({
  async prepare(tx, { studioId, subjectId: id }) {
    const secret = createHmac('sha256', options.linkSecret)
      .update(`person-export/${studioId}/${id}`)
      .digest('base64url');
    const [rows] = await tx.query<[unknown[], number]>(
      `UPDATE person_exports SET link_hash = $3
        WHERE studio_id = $1 AND id = $2 AND state = 'ready' AND expires_at > app_now() RETURNING id`,
      [studioId, id, secretHash(secret)],
    );
    if (rows.length === 0) return null;
    return { values: { link: `${options.publicUrl}/exports/${tenantToken({ studioId, id, secret })}` } };
  },
});
