import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto';

const algorithm = 'aes-256-gcm';
const nonceBytes = 12;
const tagBytes = 16;

/** A sealed value that the key does not open: another key, another place, or altered bytes. */
export class SealBroken extends Error {
  override readonly name = 'SealBroken';
}

/**
 * Seal bytes with AES-256-GCM (NIST SP 800-38D) under a random 96-bit nonce: nonce, tag, ciphertext.
 *
 * @param key 32 bytes
 * @param place where the value belongs, such as table, column and row: opened anywhere else it is refused
 */
export function seal(key: Buffer, place: string, plain: Buffer): Buffer {
  const nonce = randomBytes(nonceBytes);
  const cipher = createCipheriv(algorithm, key, nonce, { authTagLength: tagBytes });
  cipher.setAAD(Buffer.from(place));
  const ciphertext = Buffer.concat([cipher.update(plain), cipher.final()]);
  return Buffer.concat([nonce, cipher.getAuthTag(), ciphertext]);
}

/** @throws SealBroken */
export function unseal(key: Buffer, place: string, sealed: Buffer): Buffer {
  if (sealed.length < nonceBytes + tagBytes) throw new SealBroken();
  const decipher = createDecipheriv(algorithm, key, sealed.subarray(0, nonceBytes), {
    authTagLength: tagBytes,
  });
  decipher.setAAD(Buffer.from(place));
  decipher.setAuthTag(sealed.subarray(nonceBytes, nonceBytes + tagBytes));
  try {
    return Buffer.concat([decipher.update(sealed.subarray(nonceBytes + tagBytes)), decipher.final()]);
  } catch {
    throw new SealBroken();
  }
}
