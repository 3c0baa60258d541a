import { lookup } from 'node:dns/promises';
import { isIP } from 'node:net';
import { isPublicAddress } from './public-address.js';

export interface TargetRules {
  /** For tests and the demo: this machine's own addresses and plain http are allowed too. */
  readonly local: boolean;
}

export interface Address {
  readonly address: string;
  readonly family: number;
}

/** Asks for all addresses of a host. */
export type Resolve = (host: string) => Promise<readonly Address[]>;

/** Where we do not send anything. The message says why, without the address. */
export class ForbiddenTarget extends Error {
  override readonly name = 'ForbiddenTarget';
}

const resolveAll: Resolve = (host) => lookup(host, { all: true });

/**
 * Reads the address of an endpoint.
 *
 * @throws ForbiddenTarget when it is none we send to, whatever its host resolves to
 */
export function readTarget(text: string, { local }: TargetRules): URL {
  if (!URL.canParse(text)) throw new ForbiddenTarget('must be an address like https://example.org/hooks');
  const url = new URL(text);
  if (url.protocol !== 'https:' && !(local && url.protocol === 'http:')) {
    throw new ForbiddenTarget('must begin with https://');
  }
  if (url.username !== '' || url.password !== '') throw new ForbiddenTarget('must hold no name and password');
  if (url.hash !== '') throw new ForbiddenTarget('must hold no fragment');
  return url;
}

/**
 * The addresses a target resolves to now, each of them checked. Connect to one of these and to no other: a name may
 * resolve to something else a moment later.
 *
 * @throws ForbiddenTarget when it does not resolve, or any address is not public
 */
export async function checkedAddresses(
  url: URL,
  { local }: TargetRules,
  resolve: Resolve = resolveAll,
): Promise<readonly Address[]> {
  const host = url.hostname.replace(/^\[(.*)\]$/, '$1');
  const family = isIP(host);
  const addresses = family === 0 ? await resolved(host, resolve) : [{ address: host, family }];
  if (!local && !addresses.every(({ address }) => isPublicAddress(address))) {
    throw new ForbiddenTarget('must not lead into a private network');
  }
  return addresses;
}

async function resolved(host: string, resolve: Resolve): Promise<readonly Address[]> {
  try {
    const addresses = await resolve(host);
    if (addresses.length > 0) return addresses;
  } catch {
    // Told below, without the resolver's own words.
  }
  throw new ForbiddenTarget('must have a host that can be found');
}
