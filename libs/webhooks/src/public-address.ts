import ipaddr from 'ipaddr.js';
import { isIP } from 'node:net';

/** What IANA has given out for global unicast; the rest of IPv6 is reserved or local. */
const globalUnicast = ipaddr.IPv6.parseCIDR('2000::/3');

/**
 * Whether an IP address is one of the public internet: in no block that the IANA special-purpose registries (RFC 6890)
 * keep for private, local, shared, documentation or translation use. An IPv4 address inside an IPv6 one counts as
 * what it is.
 */
export function isPublicAddress(address: string): boolean {
  if (isIP(address) === 0) return false;
  const parsed = ipaddr.process(address);
  if (parsed.range() !== 'unicast') return false;
  return parsed instanceof ipaddr.IPv4 || parsed.match(globalUnicast);
}
