import { checkedAddresses, readTarget, type Address, type Resolve, type TargetRules } from '@studio/webhooks';
import http from 'node:http';
import https from 'node:https';
import type { LookupFunction } from 'node:net';

/** Of the receiver's answer only the status counts; one that talks longer than this is cut off. */
const readBytes = 64 * 1024;

/**
 * Posts a body to an address that was checked this moment, and to no other: a redirect is an answer like any, and is
 * not followed.
 *
 * @returns the status of the answer
 * @throws ForbiddenTarget when the address is none we send to
 */
export async function post(
  target: string,
  message: { headers: Readonly<Record<string, string>>; body: string },
  { signal, resolve, ...rules }: TargetRules & { signal: AbortSignal; resolve?: Resolve },
): Promise<number> {
  const url = readTarget(target, rules);
  const addresses = await checkedAddresses(url, rules, resolve);
  const { request } = url.protocol === 'https:' ? https : http;
  return new Promise((answered, reject) => {
    const sent = request(
      url,
      {
        method: 'POST',
        headers: { ...message.headers, 'content-length': Buffer.byteLength(message.body) },
        lookup: onlyTo(addresses),
        // A connection of its own: one kept from before was not checked.
        agent: false,
        signal,
      },
      (response) => {
        let left = readBytes;
        response.on('data', (chunk: Buffer) => {
          left -= chunk.length;
          if (left < 0) response.destroy();
        });
        response.on('error', () => undefined);
        response.on('close', () => {
          answered(response.statusCode ?? 0);
        });
      },
    );
    sent.on('error', reject);
    sent.end(message.body);
  });
}

/** Node asks this instead of the resolver when it connects. */
const onlyTo =
  (addresses: readonly Address[]): LookupFunction =>
  (_host, { all }, done) => {
    const [first] = addresses;
    if (all === true) done(null, [...addresses]);
    else done(null, first?.address ?? '', first?.family);
  };
