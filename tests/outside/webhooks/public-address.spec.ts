import { describe, expect, it } from '@jest/globals';
import { isPublicAddress } from '@studio/webhooks';

/**
 * First and last addresses of the blocks of IANA's IPv4 and IPv6 special-purpose address registries (RFC 6890 and its
 * updates) that are not globally reachable, or that hide another address; with multicast (RFC 5771, RFC 4291).
 */
const keptBlocks: readonly (readonly [string, string, string])[] = [
  ['this network, RFC 791', '0.0.0.0', '0.255.255.255'],
  ['private use, RFC 1918', '10.0.0.0', '10.255.255.255'],
  ['shared address space, RFC 6598', '100.64.0.0', '100.127.255.255'],
  ['loopback, RFC 1122', '127.0.0.0', '127.255.255.255'],
  ['link local, RFC 3927', '169.254.0.0', '169.254.255.255'],
  ['private use, RFC 1918', '172.16.0.0', '172.31.255.255'],
  ['IETF protocol assignments, RFC 6890', '192.0.0.0', '192.0.0.255'],
  ['documentation, RFC 5737', '192.0.2.0', '192.0.2.255'],
  ['private use, RFC 1918', '192.168.0.0', '192.168.255.255'],
  ['benchmarking, RFC 2544', '198.18.0.0', '198.19.255.255'],
  ['documentation, RFC 5737', '198.51.100.0', '198.51.100.255'],
  ['documentation, RFC 5737', '203.0.113.0', '203.0.113.255'],
  ['multicast, RFC 5771', '224.0.0.0', '239.255.255.255'],
  ['reserved and limited broadcast, RFC 1112', '240.0.0.0', '255.255.255.255'],
  ['unspecified and loopback, RFC 4291', '::', '::1'],
  ['IPv4-compatible, RFC 4291', '::7f00:1', '::a00:1'],
  ['IPv4-mapped loopback and private, RFC 4291', '::ffff:127.0.0.1', '::ffff:192.168.255.255'],
  ['translation, RFC 6052', '64:ff9b::', '64:ff9b::ffff:ffff'],
  ['local translation, RFC 8215', '64:ff9b:1::', '64:ff9b:1:ffff:ffff:ffff:ffff:ffff'],
  ['discard only, RFC 6666', '100::', '100::ffff:ffff:ffff:ffff'],
  ['Teredo, RFC 4380', '2001::', '2001:0:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['benchmarking, RFC 5180', '2001:2::', '2001:2:0:ffff:ffff:ffff:ffff:ffff'],
  ['documentation, RFC 3849', '2001:db8::', '2001:db8:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['6to4, RFC 3056', '2002::', '2002:ffff:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['documentation, RFC 9637', '3fff::', '3fff:fff:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['segment routing, RFC 9602', '5f00::', '5f00:ffff:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['unique local, RFC 4193', 'fc00::', 'fdff:ffff:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['link local, RFC 4291', 'fe80::', 'febf:ffff:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['site local, RFC 3879', 'fec0::', 'feff:ffff:ffff:ffff:ffff:ffff:ffff:ffff'],
  ['multicast, RFC 4291', 'ff00::', 'ffff:ffff:ffff:ffff:ffff:ffff:ffff:ffff'],
];

describe('isPublicAddress', () => {
  it.each(keptBlocks)('refuses %s: %s to %s', (_, first, last) => {
    expect([first, last].map(isPublicAddress)).toEqual([false, false]);
  });

  // Just outside the blocks, and an IPv4 address that is public inside IPv6.
  it.each([
    ...[
      '1.0.0.0',
      '9.255.255.255',
      '11.0.0.0',
      '100.63.255.255',
      '100.128.0.0',
      '126.255.255.255',
      '128.0.0.0',
    ],
    ...['169.253.255.255', '169.255.0.0', '172.15.255.255', '172.32.0.0', '192.167.255.255', '192.169.0.0'],
    ...[
      '198.17.255.255',
      '198.20.0.0',
      '223.255.255.255',
      '2606:2800:220:1::1',
      '2a00::1',
      '::ffff:93.184.215.14',
    ],
  ])('takes %s', (address) => {
    expect(isPublicAddress(address)).toBe(true);
  });

  it.each(['', 'example.org', '1.2.3', '1.2.3.4.5', '::g'])('refuses what is no address: %s', (text) => {
    expect(isPublicAddress(text)).toBe(false);
  });
});
