import type { JobContract } from './contract.js';

/**
 * Send a message. How often a refused mail is tried again is kept with the message, in PostgreSQL; these attempts are
 * for what the handler did not foresee, such as a database that is away.
 */
export const sendMessage: JobContract<'send-message', { messageId: string }> = {
  name: 'send-message',
  queue: 'mail',
  attempts: 12,
  backoffMs: 1_000,
};
