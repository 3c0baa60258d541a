import type { Message } from '@studio/database';
import type { EntityManager } from 'typeorm';

export async function markBounced(
  tx: EntityManager,
  { studioId, id, clientId, address }: Message,
  { status, addressDead }: { status: string; addressDead: boolean },
): Promise<void> {
  await tx.query(
    `UPDATE messages SET state = 'failed', bounced_at = app_now(), last_error = $3 WHERE studio_id = $1 AND id = $2`,
    [studioId, id, `came back: ${status}`],
  );
  if (!addressDead || clientId === null) return;
  // Only while it is still the client's: a newer address is not blamed for an older one.
  await tx.query(
    `UPDATE clients SET undeliverable_email = email
      WHERE studio_id = $1 AND id IN (SELECT * FROM app_same_client($1, $2)) AND lower(email) = lower($3)`,
    [studioId, clientId, address],
  );
}

export async function noteDelay(
  tx: EntityManager,
  { studioId, id }: { studioId: string; id: string },
  status: string,
): Promise<void> {
  await tx.query(`UPDATE messages SET last_error = $3 WHERE studio_id = $1 AND id = $2 AND state = 'sent'`, [
    studioId,
    id,
    `delayed: ${status}`,
  ]);
}
