import { randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, open, readdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { checkedKey } from './storage-key.js';
import type { ObjectStorage, StoredObject } from './storage.js';

/** Objects as files in a folder that API and worker share. */
export class FolderStorage implements ObjectStorage {
  constructor(private readonly folder: string) {}

  async put(key: string, content: Uint8Array | Readable): Promise<void> {
    const file = this.fileOf(key);
    // Written aside and moved, so that nobody ever reads half an object.
    const unfinished = `${file}.${randomUUID()}~`;
    await mkdir(path.dirname(file), { recursive: true });
    try {
      await pipeline(
        content instanceof Readable ? content : [content],
        createWriteStream(unfinished, { flush: true }),
      );
      await rename(unfinished, file);
    } catch (error) {
      await rm(unfinished, { force: true });
      throw error;
    }
  }

  async get(key: string): Promise<StoredObject | null> {
    try {
      const handle = await open(this.fileOf(key));
      const { size } = await handle.stat();
      return { bytes: size, content: handle.createReadStream() };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
  }

  async delete(key: string): Promise<void> {
    await rm(this.fileOf(key), { force: true });
  }

  async *list(): AsyncGenerator<string> {
    const entries = await readdir(this.folder, { recursive: true, withFileTypes: true }).catch(
      (error: unknown) => {
        // Nothing was ever put here.
        if ((error as NodeJS.ErrnoException).code === 'ENOENT') return [];
        throw error;
      },
    );
    yield* entries
      .filter((entry) => entry.isFile() && !entry.name.endsWith('~'))
      .map((entry) => path.relative(this.folder, path.join(entry.parentPath, entry.name)))
      .sort();
  }

  private fileOf(key: string): string {
    return path.join(this.folder, checkedKey(key));
  }
}
