import type { StorageConfig } from '@studio/config';
import { FolderStorage } from './folder-storage.js';
import type { ObjectStorage } from './storage.js';

/** The storage that is configured. */
export async function createStorage(config: StorageConfig): Promise<ObjectStorage> {
  if (config.kind === 'folder') return new FolderStorage(config.folder);
  // Loaded only by who uses it: the client is large.
  const { S3Storage } = await import('./s3-storage.js');
  return new S3Storage(config);
}
