import { PasswordLink } from '@studio/database';
import { IsNull, Raw, type EntityManager } from 'typeorm';
import type { LinkedAccount } from './choose-password-pages.js';
import type { Person } from './person.js';

const later = Raw((column) => `${column} > app_now()`);

export async function insertPasswordLink(
  tx: EntityManager,
  { studioId, userId }: Person,
  reason: PasswordLink['reason'],
  goodForHours: number,
): Promise<string> {
  const rows: { id: string }[] = await tx.query(
    `INSERT INTO password_links (studio_id, user_id, reason, expires_at)
       VALUES ($1, $2, $3, app_now() + make_interval(hours => $4)) RETURNING id`,
    [studioId, userId, reason, goodForHours],
  );
  return (rows[0] as { id: string }).id;
}

export function countResetsOfTheHour(tx: EntityManager, person: Person): Promise<number> {
  const createdAt = Raw((column) => `${column} > app_now() - interval '1 hour'`);
  return tx.countBy(PasswordLink, { ...person, reason: 'reset', createdAt });
}

export function findOpenLink(
  tx: EntityManager,
  { studioId, id }: { studioId: string; id: string },
): Promise<PasswordLink | null> {
  return tx.findOneBy(PasswordLink, { studioId, id, usedAt: IsNull(), expiresAt: later });
}

export async function getLinkedAccount(
  tx: EntityManager,
  { studioId, userId }: Person,
): Promise<LinkedAccount> {
  const [account] = await tx.query<[LinkedAccount]>(
    `SELECT s.name AS studio, h.handle, u.email
       FROM users u JOIN studios s ON s.id = u.studio_id JOIN studio_handles h ON h.studio_id = u.studio_id
      WHERE u.studio_id = $1 AND u.id = $2`,
    [studioId, userId],
  );
  return account;
}

/** Of two who come with the same link one gets through. */
export async function spend(tx: EntityManager, key: { studioId: string; id: string }): Promise<boolean> {
  const { affected } = await tx.update(
    PasswordLink,
    { ...key, usedAt: IsNull() },
    { usedAt: () => 'app_now()' },
  );
  return affected === 1;
}

export async function spendOthers(tx: EntityManager, person: Person): Promise<void> {
  await tx.update(PasswordLink, { ...person, usedAt: IsNull() }, { usedAt: () => 'app_now()' });
}
