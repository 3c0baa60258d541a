import type { OnceKey } from '@studio/database';
import canonicalize from 'canonicalize';
import type { FastifyRequest } from 'fastify';
import { createHash } from 'node:crypto';
import { InvalidRequest } from './problem.js';

/**
 * What the Idempotency-Key header asks for: the key, and a hash of the request it belongs to. With or without the
 * quotes of a structured field.
 *
 * @throws InvalidRequest for a key that is none
 */
export function onceKeyOf(request: FastifyRequest): OnceKey | undefined {
  const header = request.headers['idempotency-key'];
  if (header === undefined) return undefined;
  const key = /^(?<quote>"?)(?<key>[\x21\x23-\x5b\x5d-\x7e]{1,200})\k<quote>$/.exec(String(header))?.groups?.[
    'key'
  ];
  if (key === undefined) {
    throw new InvalidRequest([
      { field: 'Idempotency-Key', message: 'must be 1 to 200 visible characters, such as a UUID' },
    ]);
  }
  const { method, url, body = null } = request;
  const said = Buffer.isBuffer(body) ? body.toString('base64') : body;
  const asked = canonicalize([method, url, said]) ?? '';
  return { key, requestHash: createHash('sha256').update(asked).digest() };
}
