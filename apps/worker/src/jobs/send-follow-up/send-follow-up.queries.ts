import { FollowUp, type SqlRunner, survivorOf } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

/** Locked, so that an answer or a change waits for what is being done. */
export function findFollowUpForUpdate(tx: EntityManager, key: Key): Promise<FollowUp | null> {
  return tx.findOne(FollowUp, { where: key, lock: { mode: 'pessimistic_write' } });
}

export interface Reachable {
  /** Contact and health data are consented to, and nobody said not to write. */
  mayBeAsked: boolean;
  /** There is a mail address, and it was not refused for good. */
  byMail: boolean;
}

export async function howToReach(
  sql: SqlRunner,
  { studioId, clientId }: { studioId: string; clientId: string },
): Promise<Reachable> {
  const [row] = await sql.query<[Reachable]>(
    `SELECT app_may_contact(c.studio_id, c.id) AND app_consented(c.studio_id, c.id, 'health_data') AS "mayBeAsked",
            now.email IS NOT NULL AND now.email IS DISTINCT FROM now.undeliverable_email AS "byMail"
       FROM clients c
       JOIN clients now ON now.studio_id = c.studio_id AND now.id = ${survivorOf('c')}
      WHERE c.studio_id = $1 AND c.id = $2`,
    [studioId, clientId],
  );
  return row;
}

/** `at`: the column that says when. */
export async function markState(
  tx: EntityManager,
  key: Key,
  fields: Pick<FollowUp, 'state'> & Partial<Pick<FollowUp, 'stateReason'>>,
  at?: 'sentAt' | 'remindedAt' | 'phonedAt' | 'closedAt',
): Promise<void> {
  await tx.update(FollowUp, key, { ...fields, ...(at && { [at]: () => 'app_now()' }) });
}
