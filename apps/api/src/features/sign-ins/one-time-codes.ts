import { randomBytes } from 'node:crypto';
import { Secret, TOTP } from 'otpauth';

const periodSeconds = 30;
/** One step to either side for clocks that differ (RFC 6238, 5.2). */
const window = 1;

/** 160 bits, as RFC 4226 (4, R6) recommends. */
export const newTotpSecret = (): Buffer => randomBytes(20);

const base32 = (bytes: Buffer): string => new Secret({ buffer: toArrayBuffer(bytes) }).base32;

/** Six digits every 30 seconds by HMAC-SHA-1, what every authenticator reads (RFC 6238). */
const totp = (secret: Buffer, label = '', issuer = ''): TOTP =>
  new TOTP({
    secret: new Secret({ buffer: toArrayBuffer(secret) }),
    algorithm: 'SHA1',
    digits: 6,
    period: periodSeconds,
    label,
    issuer,
  });

/** What a person puts into an authenticator: the address to show as a picture, and the secret to type. */
export function toEnrol(secret: Buffer, label: string, issuer: string): { address: string; secret: string } {
  return { address: totp(secret, label, issuer).toString(), secret: base32(secret) };
}

/**
 * The step a code belongs to, or null when it is none of those around now.
 *
 * @param at the real time: authenticators know no test clock
 */
export function stepOf(secret: Buffer, code: string, at: Date): number | null {
  const delta = totp(secret).validate({ token: code, timestamp: at.getTime(), window });
  return delta === null ? null : Math.floor(at.getTime() / 1000 / periodSeconds) + delta;
}

/** Ten codes of 120 random bits in groups of four, each good once when the authenticator is lost. */
export function newRecoveryCodes(): string[] {
  return Array.from({ length: 10 }, () =>
    (base32(randomBytes(15)).toLowerCase().match(/.{4}/g) as string[]).join('-'),
  );
}

export const isRecoveryCode = (code: string): boolean => /^[a-z2-7]{4}(-[a-z2-7]{4}){5}$/.test(code);

function toArrayBuffer(bytes: Buffer): ArrayBuffer {
  return new Uint8Array(bytes).buffer;
}
