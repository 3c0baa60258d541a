import type { FitSession, TenantContext } from '@studio/database';
import type { EntityManager } from 'typeorm';
import type { WriteKind } from './write-kinds.js';

/** Who writes to which session, which is open and locked, and when it was done. */
export interface Writer {
  readonly ctx: TenantContext;
  readonly session: FitSession;
  /** The id of what is made anew. */
  readonly id: string;
  readonly at: Date;
  /** The device that wrote it without a connection; null for a request that is answered at once. */
  readonly deviceId: string | null;
}

/** One way of writing to a session: for its own route, and for a device that sends it later. */
export interface SessionWrite<Payload extends object, Answer extends object> {
  readonly kind: WriteKind;
  /** Checked as a body is: unknown fields are refused. */
  readonly payload: new () => Payload;
  /** In the transaction of the caller; nothing is kept when it throws. The answer is plain JSON. */
  readonly apply: (tx: EntityManager, by: Writer, payload: Payload) => Promise<Answer>;
}

/** Any of them, its payload not told. */
export interface AnyWrite {
  readonly kind: WriteKind;
  readonly payload: new () => object;
  readonly apply: (tx: EntityManager, by: Writer, payload: never) => Promise<object>;
}
