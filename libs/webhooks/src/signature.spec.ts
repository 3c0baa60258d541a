import { describe, expect, it } from '@jest/globals';
import { endpointSecret, signatureHeaders } from './signature.js';

const key = 'a key of at least thirty-two characters';
const endpoint = { studioId: 's', endpointId: 'e', number: 1 };

describe('the secret of an endpoint', () => {
  it('is the same each time, 32 bytes, and another for each endpoint, number and key', () => {
    const secret = endpointSecret(key, endpoint);
    expect(endpointSecret(key, endpoint)).toBe(secret);
    expect(Buffer.from(secret.replace('whsec_', ''), 'base64')).toHaveLength(32);
    const others = [
      endpointSecret(key, { ...endpoint, number: 2 }),
      endpointSecret(key, { ...endpoint, endpointId: 'f' }),
      endpointSecret(key, { ...endpoint, studioId: 't' }),
      endpointSecret(`${key}!`, endpoint),
    ];
    expect(new Set([secret, ...others]).size).toBe(5);
  });
});

it('carries a signature by each secret in force, the newest first', () => {
  const message = { id: 'm', timestamp: 1, body: '{}' };
  const [one, two] = [1, 2].map((number) => endpointSecret(key, { ...endpoint, number })) as [string, string];
  const by = (...secrets: string[]) => signatureHeaders(message, secrets)['webhook-signature'];
  expect(by(two, one)).toBe(`${by(two)} ${by(one)}`);
  expect(by(two)).not.toBe(by(one));
});
