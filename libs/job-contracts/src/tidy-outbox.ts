import type { JobContract } from './contract.js';

/** Forget a studio's orders that were carried out, or set aside by somebody, long ago. */
export const tidyOutbox: JobContract<'tidy-outbox', Record<string, never>> = {
  name: 'tidy-outbox',
  queue: 'upkeep',
};
