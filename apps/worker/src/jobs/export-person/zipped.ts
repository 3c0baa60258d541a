import { Zip, ZipDeflate } from 'fflate';

export interface ZipEntry {
  readonly path: string;
  readonly content: AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
}

/** A ZIP archive as it grows: one piece of one entry is held at a time. */
export async function* zipped(entries: AsyncIterable<ZipEntry>): AsyncGenerator<Uint8Array> {
  const ready: Uint8Array[] = [];
  const zip = new Zip((error, piece) => {
    if (error) throw error;
    ready.push(piece);
  });
  for await (const { path, content } of entries) {
    const entry = new ZipDeflate(path);
    zip.add(entry);
    for await (const piece of content) {
      entry.push(piece);
      yield* ready.splice(0);
    }
    entry.push(new Uint8Array(), true);
    yield* ready.splice(0);
  }
  zip.end();
  yield* ready.splice(0);
}
