import { Studio, User } from '@studio/database';
import { MoreThan, type EntityManager } from 'typeorm';

export function listStaff(
  tx: EntityManager,
  { studioId, after, limit }: { studioId: string; after: string | null; limit: number },
): Promise<User[]> {
  return tx.find(User, {
    where: { studioId, ...(after !== null && { id: MoreThan(after) }) },
    order: { id: 'ASC' },
    take: limit,
  });
}

export function insertStaff(
  tx: EntityManager,
  row: Pick<User, 'studioId' | 'email' | 'displayName' | 'passwordHash' | 'roles' | 'skills'>,
): Promise<User> {
  return tx.save(tx.create(User, row));
}

export function findStaff(tx: EntityManager, key: { studioId: string; id: string }): Promise<User | null> {
  return tx.findOneBy(User, key);
}

export function findStaffForUpdate(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<User | null> {
  return tx.findOne(User, { where: key, lock: { mode: 'for_no_key_update' } });
}

/** Changes the row only while it has the version the change was made from; tells whether it did. */
export async function updateStaff(
  tx: EntityManager,
  key: { studioId: string; id: string; version: number },
  fields: Partial<Pick<User, 'displayName' | 'roles' | 'skills' | 'disabledAt'>>,
): Promise<boolean> {
  const { affected } = await tx.update(User, key, { ...fields, version: key.version + 1 });
  return affected === 1;
}

/** Locked, so that two owners who take each other's role at once do not both succeed. */
export async function hasActiveOwner(tx: EntityManager, studioId: string): Promise<boolean> {
  const rows: unknown[] = await tx.query(
    `SELECT id FROM users WHERE studio_id = $1 AND disabled_at IS NULL AND password_hash IS NOT NULL
        AND 'owner' = ANY (roles) ORDER BY id FOR UPDATE`,
    [studioId],
  );
  return rows.length > 0;
}

export function getStudio(tx: EntityManager, studioId: string): Promise<Studio> {
  return tx.findOneByOrFail(Studio, { id: studioId });
}
