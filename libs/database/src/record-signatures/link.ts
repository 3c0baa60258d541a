import canonicalize from 'canonicalize';
import { createHash } from 'node:crypto';
import type { RecordSignature } from '../entities/record-signature.js';

/** JSON with one spelling (RFC 8785), so that equal content has equal bytes. */
export const canonical = (value: unknown): string => canonicalize(value) as string;

export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

export type Link = Pick<
  RecordSignature,
  | 'number'
  | 'kind'
  | 'fitSessionId'
  | 'amendmentId'
  | 'contentHash'
  | 'previousHash'
  | 'signedBy'
  | 'signedAt'
>;

/** The hash a link must have. */
export function hashOfLink(link: Link): string {
  const { number, kind, fitSessionId, amendmentId, contentHash, previousHash, signedBy, signedAt } = link;
  return sha256(
    canonical({
      number,
      kind,
      fitSessionId,
      amendmentId,
      contentHash,
      previousHash,
      signedBy,
      signedAt: signedAt.toISOString(),
    }),
  );
}
