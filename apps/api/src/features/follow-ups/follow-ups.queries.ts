import { FollowUp } from '@studio/database';
import type { EntityManager } from 'typeorm';

export async function insertFollowUp(
  tx: EntityManager,
  row: Pick<FollowUp, 'studioId' | 'fitSessionId' | 'clientId' | 'week' | 'dueAt'>,
): Promise<string> {
  const { identifiers } = await tx.insert(FollowUp, row);
  return (identifiers[0] as { id: string }).id;
}

/** Locked, so that a link pressed twice is answered once. */
export function findFollowUpForUpdate(
  tx: EntityManager,
  key: { studioId: string; id: string },
): Promise<FollowUp | null> {
  return tx.findOne(FollowUp, { where: key, lock: { mode: 'pessimistic_write' } });
}

export async function storeAnswers(
  tx: EntityManager,
  key: { studioId: string; id: string },
  answers: Pick<FollowUp, 'pain' | 'comfort' | 'numbness' | 'power20MinW' | 'saddleHeightMm' | 'screeningId'>,
): Promise<void> {
  await tx.update(FollowUp, key, { ...answers, state: 'answered', answeredAt: () => 'app_now()' });
}
