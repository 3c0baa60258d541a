import type { JobContract } from './contract.js';

/** Mail the client of a signed session the one-time link to a follow-up. */
export const sendFollowUp: JobContract<'send-follow-up', { followUpId: string }> = {
  name: 'send-follow-up',
  queue: 'mail',
};
