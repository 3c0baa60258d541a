import type { JobContract } from './contract.js';

/** Work out a session's outcome anew from its record and its answers. */
export const summariseOutcome: JobContract<'summarise-outcome', { fitSessionId: string }> = {
  name: 'summarise-outcome',
  queue: 'summaries',
};
