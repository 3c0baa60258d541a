import { Studio, User } from '@studio/database';
import type { EntityManager } from 'typeorm';

export function listStaff(tx: EntityManager, studioId: string): Promise<User[]> {
  return tx.find(User, { where: { studioId }, order: { id: 'ASC' } });
}

export function insertStaff(
  tx: EntityManager,
  row: Pick<User, 'studioId' | 'email' | 'displayName' | 'passwordHash' | 'roles'>,
): Promise<User> {
  return tx.save(tx.create(User, row));
}

export function getStudio(tx: EntityManager, studioId: string): Promise<Studio> {
  return tx.findOneByOrFail(Studio, { id: studioId });
}
