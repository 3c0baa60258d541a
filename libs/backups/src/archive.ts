import { Decrypter, Encrypter } from 'age-encryption';
import { Readable, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { createGunzip, createGzip } from 'node:zlib';
import { extract, pack } from 'tar-stream';

export interface ArchiveEntry {
  readonly name: string;
  readonly content: Readable;
}

/** The archive cannot be opened: another key, cut short, altered, or no archive of ours. */
export class ArchiveUnreadable extends Error {
  override readonly name = 'ArchiveUnreadable';
}

/**
 * Writes an archive: tar (POSIX.1-2001, pax), in gzip (RFC 1952), in age (age-encryption.org/v1), so that the tools `age`,
 * `gunzip` and `tar` open it when nothing of ours is left. Nothing is written in clear on the way.
 */
export class ArchiveWriter {
  private readonly tar = pack();
  private readonly written: Promise<void>;

  private constructor(recipients: readonly string[], output: Writable) {
    const outputFails = new Promise<never>((_, reject) => output.once('error', reject));
    this.written = Promise.race([this.write(recipients, output), outputFails]);
    // Whoever adds or finishes is told.
    this.tar.on('error', () => undefined);
    this.written.catch((error: unknown) => {
      this.tar.destroy(error as Error);
    });
  }

  /** @param recipients age's public keys, one or more: who holds the secret half of any of them can open it */
  static to(output: Writable, recipients: readonly string[]): ArchiveWriter {
    if (recipients.length === 0) throw new RangeError('an archive that nobody can open');
    return new ArchiveWriter(recipients, output);
  }

  async add(name: string, content: Buffer | string): Promise<void> {
    const bytes = Buffer.from(content);
    await this.addStream(name, bytes.length, Readable.from([bytes], { objectMode: false }));
  }

  /** @param bytes how long the content is, exactly */
  async addStream(name: string, bytes: number, content: Readable): Promise<void> {
    await Promise.race([pipeline(content, this.tar.entry({ name, size: bytes })), this.failure()]);
  }

  async finish(): Promise<void> {
    this.tar.finalize();
    await this.written;
  }

  /** Give up: what was written is no archive. */
  abandon(error: Error): void {
    this.tar.destroy(error);
  }

  /** Settles only when writing fails, so that nobody waits for an output that takes nothing any more. */
  private failure(): Promise<never> {
    return this.written.then(
      () => new Promise<never>(() => undefined),
      (error: unknown) => {
        throw error;
      },
    );
  }

  private async write(recipients: readonly string[], output: Writable): Promise<void> {
    const encrypter = new Encrypter();
    for (const recipient of recipients) encrypter.addRecipient(recipient);
    const zipped = createGzip();
    const sealed = await encrypter.encrypt(Readable.toWeb(zipped) as ReadableStream<Uint8Array>);
    await Promise.all([
      pipeline(this.tar, zipped),
      pipeline(Readable.fromWeb(sealed as Parameters<typeof Readable.fromWeb>[0]), output),
    ]);
  }
}

/**
 * The entries of an archive in their order; each has to be read to its end before the next.
 *
 * @param identities age's secret keys; one that fits is enough
 * @throws ArchiveUnreadable
 */
export async function* readArchive(
  input: Readable,
  identities: readonly string[],
): AsyncGenerator<ArchiveEntry> {
  const decrypter = new Decrypter();
  for (const identity of identities) decrypter.addIdentity(identity);
  const entries = extract();
  try {
    const opened = await decrypter.decrypt(Readable.toWeb(input) as ReadableStream<Uint8Array>);
    const unpacked = pipeline(
      Readable.fromWeb(opened as Parameters<typeof Readable.fromWeb>[0]),
      createGunzip(),
      entries,
    );
    unpacked.catch((error: unknown) => {
      entries.destroy(error as Error);
    });
    for await (const entry of entries) {
      yield { name: entry.header.name, content: Readable.from(contentOf(entry), { objectMode: false }) };
    }
    await unpacked;
  } catch (error) {
    throw unreadable(error);
  } finally {
    entries.destroy();
    input.destroy();
  }
}

/** Whoever reads an entry is the first to be told that the archive ends or is altered within it. */
async function* contentOf(entry: AsyncIterable<unknown>): AsyncGenerator {
  try {
    yield* entry;
  } catch (error) {
    throw unreadable(error);
  }
}

const unreadable = (error: unknown): Error =>
  error instanceof ArchiveUnreadable
    ? error
    : new ArchiveUnreadable(error instanceof Error ? error.message : String(error));
