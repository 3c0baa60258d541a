import type { JobContract } from './contract.js';

/** Forget a studio's Idempotency-Keys, and the answers kept with them, once their promise is over. */
export const forgetIdempotencyKeys: JobContract<'forget-idempotency-keys', Record<string, never>> = {
  name: 'forget-idempotency-keys',
  queue: 'upkeep',
};
