import type { JobContract } from './contract.js';

/** Order messages to the owner and the fitters: a referral case cannot wait. */
export const alertStudio: JobContract<'alert-studio', { referralId: string }> = {
  name: 'alert-studio',
  queue: 'mail',
  backoffMs: 1_000,
};
