import type { JobContract } from './contract.js';

/** Put everything that is kept of a person into one archive. */
export const exportPerson: JobContract<'export-person', { personExportId: string }> = {
  name: 'export-person',
  queue: 'exports',
};
