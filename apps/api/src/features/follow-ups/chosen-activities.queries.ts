import { ChosenActivity } from '@studio/database';
import type { EntityManager } from 'typeorm';

interface OfSession {
  studioId: string;
  fitSessionId: string;
}

export type Named = Pick<ChosenActivity, 'position' | 'activity' | 'ability'>;

/** In the order they were named. */
export function listActivities(tx: EntityManager, { studioId, fitSessionId }: OfSession): Promise<Named[]> {
  return tx.find(ChosenActivity, {
    select: { position: true, activity: true, ability: true },
    where: { studioId, fitSessionId },
    order: { position: 'ASC' },
  });
}

export async function replaceActivities(
  tx: EntityManager,
  { studioId, fitSessionId }: OfSession,
  named: readonly Named[],
): Promise<void> {
  await tx.delete(ChosenActivity, { studioId, fitSessionId });
  await tx.insert(
    ChosenActivity,
    named.map((activity) => ({ studioId, fitSessionId, ...activity })),
  );
}
