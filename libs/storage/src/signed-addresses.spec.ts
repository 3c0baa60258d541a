import { describe, expect, it } from '@jest/globals';
import { createHmac, hkdfSync } from 'node:crypto';
import { SignedAddresses } from './index.js';

const now = new Date('2026-03-02T09:00:00Z');
const object = {
  key: '0199d0c2-7c4e-7e57-8f4f-3f1f7a0c9b11/files/7/original.jpg',
  mediaType: 'image/jpeg',
  fileName: 'left & "right" ü.jpg',
};
const addresses = new SignedAddresses('secret', 'https://studio.example');
const queryOf = (url: string): Record<string, string> => Object.fromEntries(new URL(url).searchParams);
const soon = new Date(now.getTime() + 299_000);

describe('signed addresses', () => {
  const { url, expiresAt } = addresses.addressOf(object, now);

  it('say what they speak of for five minutes', () => {
    expect(url).toMatch(/^https:\/\/studio\.example\/v1\/stored-objects\?/);
    expect(expiresAt).toEqual(new Date('2026-03-02T09:05:00Z'));
    expect(addresses.read(queryOf(url), soon)).toEqual(object);
    expect(addresses.read(queryOf(url), expiresAt)).toBeNull();
  });

  it('hold only as they were signed, by the same secret', () => {
    const query = queryOf(url);
    const later = String(expiresAt.getTime() + 60_000);
    for (const change of [
      { key: object.key.replace('/7/', '/8/') },
      { type: 'text/html' },
      { name: 'other.jpg' },
      { expires: later },
      { signature: `${query['signature'] ?? ''}A` },
      { signature: '' },
      { signature: undefined },
      { key: [object.key] },
    ]) {
      expect(addresses.read({ ...query, ...change }, soon)).toBeNull();
    }
    expect(new SignedAddresses('other', 'https://studio.example').read(query, soon)).toBeNull();
  });

  it('are signed as RFC 2104 and RFC 5869 say', () => {
    const { key, type, name, expires, signature } = queryOf(url);
    const derived = Buffer.from(hkdfSync('sha256', 'secret', '', 'signed addresses of stored objects', 32));
    const mac = createHmac('sha256', derived).update(JSON.stringify([key, type, name, expires]));
    expect(signature).toBe(mac.digest('base64url'));
  });
});
