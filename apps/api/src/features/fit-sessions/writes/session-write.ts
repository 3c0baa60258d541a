import type { FitSession, TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';

/** Who writes to which session, which is open and locked. */
export interface Writer {
  readonly ctx: TenantContext;
  readonly session: FitSession;
  /** The id of what is made anew; absent: the database makes one. */
  readonly id?: string;
  /** The device that wrote it without a connection; null for a request that is answered at once. */
  readonly deviceId: string | null;
}

/** Write one thing, in the transaction of the caller; the answer is plain JSON. */
export type Write<Payload extends object, Answer extends object> = (
  tx: EntityManager,
  by: Writer,
  payload: Payload,
) => Promise<Answer>;
