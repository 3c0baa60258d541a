import { PersonExport } from '@studio/database';
import { LessThanOrEqual, type EntityManager } from 'typeorm';

export async function listExpiredExports(
  tx: EntityManager,
  { studioId, now }: { studioId: string; now: Date },
): Promise<string[]> {
  const rows = await tx.find(PersonExport, {
    select: { id: true },
    where: { studioId, state: 'ready', expiresAt: LessThanOrEqual(now) },
  });
  return rows.map(({ id }) => id);
}

export async function markExpired(tx: EntityManager, key: { studioId: string; id: string }): Promise<void> {
  await tx.update(PersonExport, { ...key, state: 'ready' }, { state: 'expired', linkHash: null });
}
