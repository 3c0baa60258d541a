import type { JobContract } from './contract.js';

/** Mail a person of the studio the one-time link to choose a password by. */
export const sendPasswordLink: JobContract<'send-password-link', { passwordLinkId: string }> = {
  name: 'send-password-link',
  queue: 'mail',
  attempts: 8,
  backoffMs: 2_000,
};
