import { IntakeLink, secretHash, tenantToken } from '@studio/database';
import { createHmac } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import type { About, Prepared, Subject } from './subject.js';

interface Options {
  readonly publicUrl: string;
  readonly linkSecret: string;
}

/** The link works from before the mail goes out, and is the same however often it is sent. */
async function prepareLink(
  tx: EntityManager,
  { studioId, messageId }: About,
  id: string,
  { publicUrl, linkSecret }: Options,
): Promise<Prepared> {
  const secret = createHmac('sha256', linkSecret).update(`intake/${studioId}/${id}`).digest('base64url');
  await tx.update(IntakeLink, { studioId, id }, { linkHash: secretHash(secret), messageId });
  return { values: { link: `${publicUrl}/intake/${tenantToken({ studioId, id, secret })}` } };
}

/** The one-time link to the questions before a fit. */
export const intakeLinkSubject = (options: Options): Subject => ({
  async prepare(tx, about) {
    const rows = await tx.query<unknown[]>(
      `SELECT 1 FROM intake_links WHERE studio_id = $1 AND id = $2
          AND revoked_at IS NULL AND submitted_at IS NULL AND expires_at > app_now()`,
      [about.studioId, about.subjectId],
    );
    return rows.length === 0 ? null : prepareLink(tx, about, about.subjectId, options);
  },

  sent: ({ studioId, subjectId }) => ({
    text: 'UPDATE intake_links SET sent_at = app_now() WHERE studio_id = $1 AND id = $2',
    values: [studioId, subjectId],
  }),
});

/**
 * The link that is open when a visit is near. One that was handed over on paper has a secret nobody knows any more: of
 * that the desk has to remind.
 */
export const openIntakeSubject = (options: Options): Subject => ({
  async prepare(tx, about) {
    const rows = await tx.query<{ id: string }[]>(
      `SELECT l.id FROM appointments a
         JOIN intake_links l ON l.studio_id = a.studio_id AND l.client_id IN (SELECT * FROM app_same_client(a.studio_id, a.client_id))
        WHERE a.studio_id = $1 AND a.id = $2 AND a.state = 'booked' AND l.delivery = 'mail'
          AND l.revoked_at IS NULL AND l.submitted_at IS NULL AND l.expires_at > app_now()
        ORDER BY l.id DESC LIMIT 1`,
      [about.studioId, about.subjectId],
    );
    return rows[0] ? prepareLink(tx, about, rows[0].id, options) : null;
  },
});
