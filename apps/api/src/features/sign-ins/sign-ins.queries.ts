import { RefreshToken, Studio, StudioHandle, User } from '@studio/database';
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
  row: Pick<
    RefreshToken,
    'studioId' | 'userId' | 'familyId' | 'secretHash' | 'expiresAt' | 'fromAddress' | 'userAgent'
  >,
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

export async function getStudioName(tx: EntityManager, studioId: string): Promise<string> {
  return (await tx.findOneByOrFail(Studio, { id: studioId })).name;
}

/** Ends every sign-in of a person but the one named. */
export async function revokeSignIns(
  tx: EntityManager,
  { studioId, userId, except = null }: { studioId: string; userId: string; except?: string | null },
): Promise<void> {
  await tx.query(
    `UPDATE refresh_tokens SET revoked_at = now()
      WHERE studio_id = $1 AND user_id = $2 AND revoked_at IS NULL AND family_id IS DISTINCT FROM $3::uuid`,
    [studioId, userId, except],
  );
}

export interface StandingSignIn {
  id: string;
  beganAt: Date;
  lastUsedAt: Date;
  fromAddress: string | null;
  userAgent: string | null;
}

/** The newest link of each chain that still stands, newest first. */
export function listStandingSignIns(
  tx: EntityManager,
  { studioId, userId }: { studioId: string; userId: string },
): Promise<StandingSignIn[]> {
  return tx.query(
    `SELECT t.family_id AS id, t.issued_at AS "lastUsedAt", t.from_address AS "fromAddress", t.user_agent AS "userAgent",
            (SELECT min(f.issued_at) FROM refresh_tokens f
              WHERE f.studio_id = t.studio_id AND f.family_id = t.family_id) AS "beganAt"
       FROM refresh_tokens t
      WHERE t.studio_id = $1 AND t.user_id = $2 AND t.revoked_at IS NULL AND t.replaced_at IS NULL AND t.expires_at > now()
      ORDER BY t.id DESC`,
    [studioId, userId],
  );
}

export async function isOwnSignIn(
  tx: EntityManager,
  { studioId, userId, familyId }: { studioId: string; userId: string; familyId: string },
): Promise<boolean> {
  return tx.existsBy(RefreshToken, { studioId, userId, familyId });
}
