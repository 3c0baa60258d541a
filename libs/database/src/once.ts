import type { EntityManager } from 'typeorm';
import { IdempotencyKey } from './entities/idempotency-key.js';
import { lookUpHash } from './sealed-fields/sealed-fields.js';
import type { TenantContext } from './tenant-context.js';

/** The key was used before, for another request. */
export class OnceKeyReused extends Error {}

/** For so long a repeated request gets its first answer again; the API's document says so. */
const keptHours = 24;

interface Claim {
  readonly studioId: string;
  readonly userId: string;
  readonly key: string;
}

/**
 * Do `work` unless its key was answered within 24 hours; then give that answer again. A second caller with the same
 * key waits at the unique index until the first has committed or failed.
 *
 * @throws OnceKeyReused when the key belongs to another request
 */
export async function once<T extends object>(
  tx: EntityManager,
  ctx: TenantContext,
  work: (tx: EntityManager) => Promise<T>,
): Promise<T> {
  if (!ctx.once || ctx.userId === null) return work(tx);
  const { key } = ctx.once;
  // A bare hash of few possible answers tells which it is of.
  const requestHash = lookUpHash(ctx.once.requestHash);
  const claim: Claim = { studioId: ctx.studioId, userId: ctx.userId, key };
  if (!(await claimed(tx, claim, requestHash))) {
    const before = await tx.findOneByOrFail(IdempotencyKey, claim);
    if (!before.requestHash.equals(requestHash)) throw new OnceKeyReused();
    return before.answer as T;
  }
  const answer = await work(tx);
  await tx.update(IdempotencyKey, claim, { answer });
  return answer;
}

/** Forgets a studio's keys whose promise is over. */
export async function forgetOnceKeys(tx: EntityManager, studioId: string): Promise<void> {
  await tx.query(
    `DELETE FROM idempotency_keys WHERE studio_id = $1 AND created_at <= app_now() - make_interval(hours => $2)`,
    [studioId, keptHours],
  );
}

/** A key whose promise is over may be claimed again. */
async function claimed(tx: EntityManager, claim: Claim, requestHash: Buffer): Promise<boolean> {
  const rows = await tx.query<unknown[]>(
    `INSERT INTO idempotency_keys AS before (studio_id, user_id, key, request_hash) VALUES ($1, $2, $3, $4)
       ON CONFLICT ON CONSTRAINT idempotency_keys_once DO UPDATE
         SET request_hash = excluded.request_hash, answer = NULL, created_at = app_now()
       WHERE before.created_at <= app_now() - make_interval(hours => $5)
     RETURNING id`,
    [claim.studioId, claim.userId, claim.key, requestHash, keptHours],
  );
  return rows.length === 1;
}
