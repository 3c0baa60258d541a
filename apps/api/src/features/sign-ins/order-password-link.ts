import { orderJob, type PasswordLink } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { insertPasswordLink } from './password-links.queries.js';
import type { Person } from './person.js';

const goodForHours = { invitation: 7 * 24, reset: 1 } as const;

/** Have a link mailed that its person chooses a password by. */
export async function orderPasswordLink(
  tx: EntityManager,
  person: Person,
  reason: PasswordLink['reason'],
): Promise<void> {
  const passwordLinkId = await insertPasswordLink(tx, person, reason, goodForHours[reason]);
  await orderJob(tx, { studioId: person.studioId, job: 'send-password-link', payload: { passwordLinkId } });
}
