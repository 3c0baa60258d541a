import { activities } from '@studio/clinical-flags';
import { studioClock, type TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { endOfDay } from '../../http/local-days.js';
import type { ClearRequest } from './screenings.dto.js';
import { ClearanceRunOut } from './screenings.errors.js';
import { insertClearance } from './screenings.queries.js';

/**
 * Record that a clinician cleared findings: for which activities, and until the end of which day at the studio.
 *
 * @throws ClearanceRunOut when that day is over
 */
export async function clearFindings(
  tx: EntityManager,
  ctx: TenantContext,
  of: { clientId: string; screeningId: string; findingIds: readonly string[] },
  request: ClearRequest,
): Promise<void> {
  const { studioId } = ctx;
  const { reason, clearedByClinician, registration = null, scope = [...activities], validUntil } = request;
  const { now, timeZone } = await studioClock(tx, studioId);
  const until = validUntil === undefined ? null : endOfDay(validUntil, timeZone);
  if (until !== null && until <= now) throw new ClearanceRunOut();
  await insertClearance(
    tx,
    {
      studioId,
      clientId: of.clientId,
      screeningId: of.screeningId,
      reason,
      clearedByClinician,
      registration,
      scope,
      validUntil: until,
      recordedBy: ctx.userId as string,
    },
    of.findingIds,
  );
}
