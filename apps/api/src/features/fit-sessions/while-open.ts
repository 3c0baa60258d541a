import { violates, type FitSession, type TenantContext, type TenantTransaction } from '@studio/database';
import type { EntityManager } from 'typeorm';
import { found } from '../../http/problem.js';
import { SessionSigned } from './fit-sessions.errors.js';
import { findSessionForUpdate } from './fit-sessions.queries.js';

/**
 * Write to a session that is not signed, holding its row. Repeated with the same Idempotency-Key, the first answer is
 * given again.
 *
 * @throws NotFound, SessionSigned
 */
export async function whileOpen<T extends object>(
  transaction: TenantTransaction,
  ctx: TenantContext,
  fitSessionId: string,
  work: (tx: EntityManager, session: FitSession) => Promise<T>,
): Promise<T> {
  try {
    return await transaction.runOnce(ctx, async (tx) => {
      const session = found(await findSessionForUpdate(tx, { studioId: ctx.studioId, id: fitSessionId }));
      if (session.signedAt !== null) throw new SessionSigned();
      return work(tx, session);
    });
  } catch (error) {
    // The database guards it too, for whoever comes by another way.
    throw violates(error, 'fit_sessions_signed_is_final') ? new SessionSigned() : error;
  }
}
