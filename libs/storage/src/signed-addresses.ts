import { createHmac, hkdfSync, timingSafeEqual } from 'node:crypto';
import { checkedKey } from './storage-key.js';

/** An object as it is to be answered. */
export interface AddressedObject {
  readonly key: string;
  readonly mediaType: string;
  /** The name it is saved by. */
  readonly fileName: string;
}

export const addressPath = '/v1/stored-objects';
const addressSeconds = 300;

/**
 * Addresses that let whoever holds one read one object for a short time, without signing in: for `<img>`, for a
 * download, for a document in a mail program. HMAC-SHA256 (RFC 2104) over all that the address says.
 */
export class SignedAddresses {
  private readonly key: Buffer;

  /** @param secret of the API; a key of its own is derived from it (RFC 5869) */
  constructor(
    secret: string,
    private readonly publicUrl: string,
  ) {
    this.key = Buffer.from(hkdfSync('sha256', secret, '', 'signed addresses of stored objects', 32));
  }

  /** @returns the address and when it runs out, five minutes from `now` */
  addressOf(
    { key, mediaType, fileName }: AddressedObject,
    now = new Date(),
  ): { url: string; expiresAt: Date } {
    const expiresAt = new Date(now.getTime() + addressSeconds * 1000);
    const expires = String(expiresAt.getTime());
    const said = { key: checkedKey(key), type: mediaType, name: fileName, expires };
    const query = new URLSearchParams({ ...said, signature: this.signature(said).toString('base64url') });
    return { url: `${this.publicUrl}${addressPath}?${query.toString()}`, expiresAt };
  }

  /** What the query of an address speaks of; null when it was not signed by us as it is, or has run out. */
  read(query: Readonly<Record<string, unknown>>, now = new Date()): AddressedObject | null {
    const { key, type, name, expires, signature } = query;
    const said = { key, type, name, expires };
    if (![...Object.values(said), signature].every((value) => typeof value === 'string')) return null;
    const signed = this.signature(said as Said);
    const given = Buffer.from(signature as string, 'base64url');
    if (given.length !== signed.length || !timingSafeEqual(given, signed)) return null;
    if (Number(expires) <= now.getTime()) return null;
    return { key: key as string, mediaType: type as string, fileName: name as string };
  }

  private signature({ key, type, name, expires }: Said): Buffer {
    // JSON keeps the parts apart whatever they hold.
    return createHmac('sha256', this.key)
      .update(JSON.stringify([key, type, name, expires]))
      .digest();
  }
}

type Said = Record<'key' | 'type' | 'name' | 'expires', string>;
