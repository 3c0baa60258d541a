import { beforeAll, describe, expect, it } from '@jest/globals';
import { Decrypter } from 'age-encryption';
import { PassThrough, Readable } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { gunzipSync } from 'node:zlib';
import { ArchiveUnreadable, ArchiveWriter, readArchive } from './archive.js';
import { newBackupKey } from './backup-key.js';

const entries = [
  ['about.json', Buffer.from('{}')],
  ['empty', Buffer.alloc(0)],
  // Longer than a chunk of age, 64 KiB, and not to be compressed away.
  ['long', Buffer.from(Array.from({ length: 300_000 }, (_, n) => (n * n * 31 + (n >> 3)) % 251))],
] as const;

let key: Awaited<ReturnType<typeof newBackupKey>>;
let archive: Buffer;

async function written(...recipients: string[]): Promise<Buffer> {
  const output = new PassThrough();
  const [bytes] = await Promise.all([
    buffer(output),
    (async () => {
      const writer = ArchiveWriter.to(output, recipients);
      for (const [name, content] of entries) await writer.add(name, content);
      await writer.finish();
    })(),
  ]);
  return bytes;
}

async function read(bytes: Buffer, identity = key.identity): Promise<[string, Buffer][]> {
  const found: [string, Buffer][] = [];
  for await (const { name, content } of readArchive(Readable.from([bytes]), [identity])) {
    found.push([name, await buffer(content)]);
  }
  return found;
}

beforeAll(async () => {
  key = await newBackupKey();
  archive = await written(key.recipient);
});

describe('an archive', () => {
  it('gives back what was put in', async () => {
    expect(await read(archive)).toEqual(entries);
  });

  it('is tar in gzip in age, which other tools open', async () => {
    const age = new Decrypter();
    age.addIdentity(key.identity);
    const tar = gunzipSync(await age.decrypt(archive));
    // POSIX.1-1988, "ustar Interchange Format": the name of the first entry at 0, the magic at 257.
    expect([tar.toString('latin1', 0, 10), tar.toString('latin1', 257, 262)]).toEqual([
      'about.json',
      'ustar',
    ]);
    expect(archive.toString('latin1', 0, 21)).toBe('age-encryption.org/v1');
  });

  it('is opened by any of the keys it was made for', async () => {
    const other = await newBackupKey();
    const shared = await written(key.recipient, other.recipient);
    expect(await read(shared)).toEqual(await read(shared, other.identity));
  });

  it('is not opened by another key', async () => {
    const { identity } = await newBackupKey();
    await expect(read(archive, identity)).rejects.toThrow(ArchiveUnreadable);
  });

  it.each([0, 30, 150, 0.5, 0.99])('is not opened when it was altered at %p', async (at) => {
    const altered = Buffer.from(archive);
    const offset = at < 1 ? Math.floor(at * archive.length) : at;
    altered.writeUInt8(altered.readUInt8(offset) ^ 1, offset);
    await expect(read(altered)).rejects.toThrow(ArchiveUnreadable);
  });

  it.each([0, 100, 0.5, 0.999])('is not opened when it ends at %p', async (at) => {
    const end = at < 1 ? Math.floor(at * archive.length) : at;
    await expect(read(archive.subarray(0, end))).rejects.toThrow(ArchiveUnreadable);
  });

  it('is not made for nobody', () => {
    expect(() => ArchiveWriter.to(new PassThrough(), [])).toThrow(RangeError);
  });

  it('fails when its output does', async () => {
    const output = new PassThrough();
    const writer = ArchiveWriter.to(output, [key.recipient]);
    await writer.add('one', 'one');
    output.destroy(new Error('the disk is full'));
    await expect(
      (async () => {
        for (let n = 0; n < 100; n += 1) await writer.add(`${n}`, entries[2][1]);
        await writer.finish();
      })(),
    ).rejects.toThrow();
  });
});
