import type { Role } from './entities/user.js';

/** A caller's key for a create, and a hash of what it asked for. */
export interface OnceKey {
  readonly key: string;
  readonly requestHash: Buffer;
}

/** Who acts, in which studio, in which request. The first argument of every use case. */
export interface TenantContext {
  readonly studioId: string;
  /** Null for the system itself and for a client who came by a one-time link. */
  readonly userId: string | null;
  readonly roles: readonly Role[];
  readonly requestId: string;
  /** The network address the request came from. */
  readonly fromAddress?: string;
  /** The sign-in the request came with; none with a key. */
  readonly signInId?: string;
  /** There when the caller may repeat the request; see `TenantTransaction.runOnce`. */
  readonly once?: OnceKey;
}
