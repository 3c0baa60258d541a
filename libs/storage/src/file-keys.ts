import { storageKey } from './storage-key.js';

/** Where the bytes of a file's row are. A thumbnail is there for images only. */
export function fileKeys(studioId: string, fileId: string): { content: string; thumbnail: string } {
  return {
    content: storageKey(studioId, 'files', fileId, 'content'),
    thumbnail: storageKey(studioId, 'files', fileId, 'thumbnail'),
  };
}
