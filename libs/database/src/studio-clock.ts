import type { EntityManager } from 'typeorm';
import { Studio } from './entities/studio.js';

/** What time it is, and by which clock on the wall. */
export async function studioClock(
  tx: EntityManager,
  studioId: string,
): Promise<{ now: Date; timeZone: string }> {
  const { timeZone } = await tx.findOneByOrFail(Studio, { id: studioId });
  const [{ now }] = await tx.query<[{ now: Date }]>('SELECT app_now() AS now');
  return { now, timeZone };
}
