import { RefreshToken, StudioHandle, User } from '@studio/database';
import { IsNull, type DataSource, type EntityManager } from 'typeorm';

/** The one look-up made before the studio is known. */
export async function findStudioIdByHandle(dataSource: DataSource, handle: string): Promise<string | null> {
  const row = await dataSource.manager.findOneBy(StudioHandle, { handle });
  return row?.studioId ?? null;
}

export function findActiveUserByEmail(
  tx: EntityManager,
  studioId: string,
  email: string,
): Promise<User | null> {
  return tx.findOneBy(User, { studioId, email, disabledAt: IsNull() });
}

export function findActiveUser(tx: EntityManager, studioId: string, id: string): Promise<User | null> {
  return tx.findOneBy(User, { studioId, id, disabledAt: IsNull() });
}

/** Locked, so that of two refreshes with the same token one waits and then sees that it was replaced. */
export function findRefreshTokenForUpdate(
  tx: EntityManager,
  studioId: string,
  id: string,
): Promise<RefreshToken | null> {
  return tx.findOne(RefreshToken, { where: { studioId, id }, lock: { mode: 'pessimistic_write' } });
}

export async function insertRefreshToken(
  tx: EntityManager,
  row: Pick<RefreshToken, 'studioId' | 'userId' | 'familyId' | 'secretHash' | 'expiresAt'>,
): Promise<string> {
  const { identifiers } = await tx.insert(RefreshToken, row);
  return (identifiers[0] as { id: string }).id;
}

export async function markReplaced(tx: EntityManager, studioId: string, id: string): Promise<void> {
  await tx.update(RefreshToken, { studioId, id }, { replacedAt: () => 'now()' });
}

export async function revokeFamily(tx: EntityManager, studioId: string, familyId: string): Promise<void> {
  await tx.update(RefreshToken, { studioId, familyId, revokedAt: IsNull() }, { revokedAt: () => 'now()' });
}
