import type { JobContract } from './contract.js';

/** Remove the bytes of a file that has no row: one that was deleted, or whose upload was never finished. */
export const removeFile: JobContract<'remove-file', { fileId: string }> = {
  name: 'remove-file',
  queue: 'documents',
};
