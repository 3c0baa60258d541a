import type { JobContract } from './contract.js';

/** Seal what was written to a studio's audit log since the last time. */
export const sealAudit: JobContract<'seal-audit', Record<string, never>> = {
  name: 'seal-audit',
  queue: 'upkeep',
};
