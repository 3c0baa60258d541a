import type { JobContract } from './contract.js';

/** Take on the clients of a list, row by row. */
export const importClients: JobContract<'import-clients', { clientImportId: string }> = {
  name: 'import-clients',
  queue: 'imports',
};
