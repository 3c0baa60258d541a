import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Readable } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { createStorage, storageKey, type ObjectStorage } from './index.js';
import { startS3Double, type S3Double } from './testing/s3-double.js';

const studioId = '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11';
const key = storageKey(studioId, 'files', '7', 'original.jpg');

let folder: string;
let double: S3Double;

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'storage-'));
  double = await startS3Double('id');
});

afterAll(async () => {
  await double.close();
  await rm(folder, { recursive: true });
});

const inS3 = (accessKeyId: string): Promise<ObjectStorage> =>
  createStorage({
    kind: 's3',
    bucket: 'studio',
    region: 'eu-north-1',
    endpoint: double.endpoint,
    credentials: { accessKeyId, secretAccessKey: 'secret' },
  });

const storages = {
  folder: () => createStorage({ kind: 'folder', folder }),
  s3: () => inS3('id'),
};

describe.each(Object.entries(storages))('%s storage', (_, open) => {
  const read = async (storage: ObjectStorage, of = key): Promise<string | null> => {
    const object = await storage.get(of);
    if (object === null) return null;
    const content = await buffer(object.content);
    expect(content.length).toBe(object.bytes);
    return content.toString();
  };

  it('keeps bytes and streams, replaces them, and forgets them', async () => {
    const storage = await open();
    expect(await read(storage)).toBeNull();
    await storage.put(key, Buffer.from('first'), 'image/jpeg');
    expect(await read(storage)).toBe('first');
    await storage.put(key, Readable.from([Buffer.from('sec'), Buffer.from('ond')]), 'image/jpeg');
    expect(await read(storage)).toBe('second');
    await storage.delete(key);
    expect(await read(storage)).toBeNull();
    await storage.delete(key);
  });

  it('keeps a stream longer than one part', async () => {
    const storage = await open();
    const long = storageKey(studioId, 'exports', 'long.zip');
    const piece = Buffer.alloc(1024 * 1024, 'x');
    await storage.put(long, Readable.from(Array.from({ length: 7 }, () => piece)), 'application/zip');
    expect(await read(storage, long)).toBe('x'.repeat(7 * piece.length));
  });

  it('tells of every object it keeps', async () => {
    const storage = await open();
    const keys = ['1', '2', '3', '4', '5'].map((id) => storageKey(studioId, 'listed', id, 'content'));
    const listed = async (): Promise<string[]> => {
      const found: string[] = [];
      for await (const one of storage.list()) if (one.includes('/listed/')) found.push(one);
      return found;
    };
    expect(await listed()).toEqual([]);
    for (const one of keys) await storage.put(one, Buffer.from('content'), 'text/plain');
    expect(await listed()).toEqual(keys);
    for (const one of keys) await storage.delete(one);
    expect(await listed()).toEqual([]);
  });

  it('takes no key that leads elsewhere', async () => {
    const storage = await open();
    for (const wrong of [
      '',
      'files/a',
      `${studioId}/../other`,
      `${studioId}//a`,
      `/${studioId}/a`,
      studioId,
    ]) {
      await expect(storage.get(wrong)).rejects.toThrow(RangeError);
      await expect(storage.put(wrong, Buffer.of(1), 'image/png')).rejects.toThrow(RangeError);
      await expect(storage.delete(wrong)).rejects.toThrow(RangeError);
    }
  });
});

it('leaves nothing of an object whose stream breaks off in the folder', async () => {
  const storage = await storages.folder();
  await storage.put(key, Buffer.from('before'), 'image/jpeg');
  const broken = Readable.from(
    (function* () {
      yield Buffer.from('half');
      throw new Error('broke off');
    })(),
  );
  await expect(storage.put(key, broken, 'image/jpeg')).rejects.toThrow('broke off');
  expect(await readdir(path.dirname(path.join(folder, key)))).toEqual(['original.jpg']);
  expect((await buffer((await storage.get(key))?.content ?? Readable.from([]))).toString()).toBe('before');
});

it('tells S3 what an object is, and fails loudly when it is refused', async () => {
  const storage = await inS3('id');
  await storage.put(key, Buffer.from('x'), 'image/jpeg');
  expect(double.objects.get(`/studio/${key}`)?.mediaType).toBe('image/jpeg');
  const stranger = await inS3('somebody-else');
  await expect(stranger.get(key)).rejects.toThrow();
  await expect(stranger.put(key, Buffer.from('y'), 'image/jpeg')).rejects.toThrow();
});
