import { RuleSetSignOff } from '@studio/database';
import type { EntityManager } from 'typeorm';

/** Newest first. */
export function listSignOffs(tx: EntityManager, studioId: string): Promise<RuleSetSignOff[]> {
  return tx.find(RuleSetSignOff, { where: { studioId }, order: { id: 'DESC' } });
}

export async function insertSignOff(
  tx: EntityManager,
  row: Omit<RuleSetSignOff, 'id' | 'createdAt'>,
): Promise<string> {
  const { identifiers } = await tx.insert(RuleSetSignOff, row);
  return (identifiers[0] as { id: string }).id;
}
