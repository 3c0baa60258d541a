import { announce, recordAudit, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { closeCaseTask } from './case-task.js';
import { takeBackReminder } from './remind-of-deadline.js';
import { markCleared } from './referrals.queries.js';

/** A case all of whose findings a clearance speaks of is cleared, however the clearance came to be recorded. */
export async function closeWhatIsCleared(
  tx: EntityManager,
  ctx: TenantContext,
  { clientId }: { clientId: string },
): Promise<void> {
  for (const recordId of await markCleared(tx, { studioId: ctx.studioId, clientId })) {
    await closeCaseTask(tx, { studioId: ctx.studioId, referralId: recordId });
    await takeBackReminder(tx, { studioId: ctx.studioId, referralId: recordId });
    await recordAudit(tx, ctx, { action: 'referrals.clear', recordId });
    await announce(tx, { studioId: ctx.studioId, type: 'referral.closed', subjectId: recordId });
  }
}
