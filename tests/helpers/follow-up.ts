import { newSecret, secretHash, tenantToken } from '../../libs/database/src/tenant-token.js';
import pg from 'pg';
import type { TestApi, TestStudio } from './studio.js';

/** Asks a client's first follow-up as the worker would, without one: the path of its pages. */
export async function askFirstFollowUp(api: TestApi, studio: TestStudio, clientId: string): Promise<string> {
  const { studioId } = studio.studio;
  const secret = newSecret();
  const admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  try {
    const { rows } = await admin.query<{ id: string }>(
      `UPDATE follow_ups SET state = 'sent', sent_at = app_now(), link_hash = $3,
                             link_expires_at = app_now() + interval '60 days'
        WHERE studio_id = $1
          AND id = (SELECT id FROM follow_ups WHERE studio_id = $1 AND client_id = $2 ORDER BY due_at LIMIT 1)
        RETURNING id`,
      [studioId, clientId, secretHash(secret)],
    );
    const [{ id }] = rows as [{ id: string }];
    return `/follow-up/${tenantToken({ studioId, id, secret })}`;
  } finally {
    await admin.end();
  }
}
