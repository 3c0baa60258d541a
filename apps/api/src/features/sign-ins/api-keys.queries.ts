import { ApiKey } from '@studio/database';
import type { EntityManager } from 'typeorm';

export interface Reach {
  readonly studioId: string;
  readonly userId?: string;
}

export function listApiKeys(tx: EntityManager, reach: Reach): Promise<ApiKey[]> {
  return tx.find(ApiKey, { where: { ...reach }, order: { id: 'DESC' }, take: 200 });
}

export function insertApiKey(
  tx: EntityManager,
  row: Pick<ApiKey, 'studioId' | 'userId' | 'name' | 'roles' | 'readOnly' | 'expiresAt' | 'secretHash'>,
): Promise<ApiKey> {
  return tx.save(tx.create(ApiKey, row));
}

/** Tells whether there is such a key; one revoked before stays as it is. */
export async function revokeApiKey(tx: EntityManager, key: Reach & { id: string }): Promise<boolean> {
  const row = await tx.findOneBy(ApiKey, { ...key });
  if (row?.revokedAt === null) {
    await tx.update(ApiKey, { studioId: row.studioId, id: row.id }, { revokedAt: () => 'app_now()' });
  }
  return row !== null;
}
