import { readClock, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { scheduleFollowUps } from '../follow-ups/index.js';
import * as queries from './shoe-work.queries.js';

/**
 * Promise to ask after the first ride and the bolts, once shoes of a fit went home worked on and the fit is signed:
 * whichever comes last calls it.
 */
export async function followFirstRide(
  tx: EntityManager,
  ctx: TenantContext,
  { fitSessionId }: { fitSessionId: string },
): Promise<void> {
  const { studioId } = ctx;
  const session = await queries.findSession(tx, { studioId, id: fitSessionId });
  if (session?.signedAt == null || !(await queries.anyCollected(tx, { studioId, fitSessionId }))) return;
  const { clientId } = session;
  const sessionAt = await readClock(tx);
  await scheduleFollowUps(tx, ctx, { fitSessionId, clientId, sessionAt, planId: 'shoe-work' });
}
