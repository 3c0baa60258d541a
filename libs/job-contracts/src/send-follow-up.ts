import type { JobContract } from './contract.js';

/**
 * Do what is due of a follow-up: ask the client, remind, have somebody phone, or give it up. An order that finds nothing
 * due does nothing, so those of before a change need not be called back.
 */
export const sendFollowUp: JobContract<'send-follow-up', { followUpId: string }> = {
  name: 'send-follow-up',
  queue: 'follow-ups',
};
