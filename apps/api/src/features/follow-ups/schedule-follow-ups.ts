import { orderJob, studioClock, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { followUpInstant, followUpWeeks } from './follow-up-times.js';
import { insertFollowUp } from './follow-ups.queries.js';

/**
 * Promise the follow-ups of a session: each a row, and in the same transaction the order to send it when due. Its
 * outcome counts as missing until somebody answers, so it is ordered too.
 */
export async function scheduleFollowUps(
  tx: EntityManager,
  ctx: TenantContext,
  session: { fitSessionId: string; clientId: string; sessionAt: Date },
): Promise<void> {
  const { studioId } = ctx;
  const { fitSessionId, clientId, sessionAt } = session;
  const { timeZone } = await studioClock(tx, studioId);
  for (const week of followUpWeeks) {
    const dueAt = followUpInstant(sessionAt, week, timeZone);
    const followUpId = await insertFollowUp(tx, { studioId, fitSessionId, clientId, week, dueAt });
    await orderJob(tx, { studioId, job: 'send-follow-up', payload: { followUpId }, availableAt: dueAt });
  }
  await orderJob(tx, { studioId, job: 'summarise-outcome', payload: { fitSessionId } });
}
