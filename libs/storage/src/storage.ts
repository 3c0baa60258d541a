import type { Readable } from 'node:stream';

export interface StoredObject {
  readonly bytes: number;
  readonly content: Readable;
}

/**
 * Where bytes are kept that are no rows: photos, documents, exports. What they are and whose is told by the row that
 * names their key. Never called inside a transaction.
 */
export interface ObjectStorage {
  /** Keep `content` under `key`, whole or not at all; what was there is replaced. */
  put(key: string, content: Uint8Array | Readable, mediaType: string): Promise<void>;
  /** Null when there is no such object. */
  get(key: string): Promise<StoredObject | null>;
  /** An object that is not there is no error. */
  delete(key: string): Promise<void>;
  /** The keys of all objects, in the order of their bytes. */
  list(): AsyncIterable<string>;
}
