import type { JobContract } from './contract.js';

/** Make the documents of a fit sheet: PDF, page, and each drawing. */
export const renderFitSheet: JobContract<'render-fit-sheet', { fitSheetId: string }> = {
  name: 'render-fit-sheet',
  queue: 'documents',
};
