import type { JobContract } from './contract.js';

/** Mail a client the one-time link to the questions before a fit. */
export const sendIntakeLink: JobContract<'send-intake-link', { intakeLinkId: string }> = {
  name: 'send-intake-link',
  queue: 'mail',
};
