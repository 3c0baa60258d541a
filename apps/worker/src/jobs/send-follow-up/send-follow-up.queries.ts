import { FollowUp, type FollowUpState, type SqlRunner } from '@studio/database';
import type { EntityManager } from 'typeorm';

export interface FollowUpToSend {
  fitSessionId: string;
  state: FollowUpState;
  /** Its time has come: it may have been moved since it was ordered. */
  isDue: boolean;
  daysAfter: number;
  givenName: string;
  email: string | null;
  mayBeContacted: boolean;
  studioName: string;
}

export async function findFollowUpToSend(
  sql: SqlRunner,
  key: { studioId: string; id: string },
): Promise<FollowUpToSend | null> {
  const rows = await sql.query<FollowUpToSend[]>(
    `SELECT f.fit_session_id AS "fitSessionId", f.state, f.due_at <= app_now() AS "isDue",
            f.days_after AS "daysAfter", c.given_name AS "givenName", c.email, s.name AS "studioName",
            app_may_contact(f.studio_id, f.client_id) AS "mayBeContacted"
       FROM follow_ups f
       JOIN clients of ON of.studio_id = f.studio_id AND of.id = f.client_id
       JOIN clients c ON c.studio_id = of.studio_id AND c.id = coalesce(of.merged_into, of.id)
       JOIN studios s ON s.id = f.studio_id
      WHERE f.studio_id = $1 AND f.id = $2`,
    [key.studioId, key.id],
  );
  return rows[0] ?? null;
}

/** The link works from before the mail goes out, for `days` from now. */
export async function prepareLink(
  tx: EntityManager,
  row: { studioId: string; id: string; linkHash: Buffer; messageId: string; days: number },
): Promise<void> {
  await tx.query(
    `UPDATE follow_ups SET link_hash = $3, message_id = $4, link_expires_at = app_now() + make_interval(days => $5)
      WHERE studio_id = $1 AND id = $2`,
    [row.studioId, row.id, row.linkHash, row.messageId, row.days],
  );
}

export async function markSent(tx: EntityManager, key: { studioId: string; id: string }): Promise<void> {
  // The client may have answered before this commits.
  await tx.update(FollowUp, { ...key, state: 'scheduled' }, { state: 'sent', sentAt: () => 'app_now()' });
}

export async function markCancelled(tx: EntityManager, key: { studioId: string; id: string }): Promise<void> {
  await tx.update(
    FollowUp,
    { ...key, state: 'scheduled' },
    { state: 'cancelled', stateReason: 'no_consent' },
  );
}
