import { storageKey } from './storage-key.js';

/** Where the archive of an export's row is. */
export const personExportKey = (studioId: string, exportId: string): string =>
  storageKey(studioId, 'person-exports', exportId, 'archive.zip');
