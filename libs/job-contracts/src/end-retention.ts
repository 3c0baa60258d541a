import type { JobContract } from './contract.js';

/** Erase what no law asks to be kept any more, and remove copies that were made for persons and have run out. */
export const endRetention: JobContract<'end-retention', Record<string, never>> = {
  name: 'end-retention',
  queue: 'upkeep',
  limitMs: 600_000,
};
