import type { JobContract } from './contract.js';

/** Mail the owner and the fitters that a referral case cannot wait. */
export const alertStudio: JobContract<'alert-studio', { referralId: string }> = {
  name: 'alert-studio',
  queue: 'mail',
  backoffMs: 1_000,
};
