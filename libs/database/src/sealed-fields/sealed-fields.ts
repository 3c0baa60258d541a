import { createHmac, hkdfSync } from 'node:crypto';
import type { ValueTransformer } from 'typeorm';
import { seal, unseal } from '../field-seal.js';
import { keyInScope } from './studio-scope.js';

/** As a sealed value is stored, in `text` or as a string of `jsonb`: then nonce, tag and ciphertext in base64url. */
const prefix = 'sealed:';
/** Of nonce and tag. */
const shortest = 38;
const place = (studioId: string): string => `sealed field of ${studioId}`;

/**
 * A value as it is stored, sealed with the key of the studio whose transaction it is. Null stays null, so that what is
 * missing can be told without a key.
 */
export function sealed(value: unknown): string | null {
  if (value === null || value === undefined) return null;
  const { studioId, key } = keyInScope(true);
  return `${prefix}${seal(key, place(studioId), Buffer.from(JSON.stringify(value))).toString('base64url')}`;
}

/** As `sealed`, for a parameter of type `jsonb`. */
export function sealedJson(value: unknown): string | null {
  return value === null || value === undefined ? null : JSON.stringify(sealed(value));
}

/** What was sealed; a value from before its column was sealed, as it is. */
function openedValue(value: unknown): unknown {
  const bytes = typeof value === 'string' ? sealedBytes(value) : null;
  if (bytes === null) return value;
  const { studioId, key } = keyInScope(false);
  return JSON.parse(unseal(key, place(studioId), bytes).toString()) as unknown;
}

/** Null for what is not sealed. */
function sealedBytes(value: string): Buffer | null {
  const length = value.length - prefix.length;
  if (length < shortest || length % 4 === 1 || !value.startsWith(prefix)) return null;
  const bytes = Buffer.from(value.slice(prefix.length), 'base64url');
  // What is no base64url is skipped in decoding: some would be missing.
  return bytes.length === Math.floor((length * 3) / 4) ? bytes : null;
}

/**
 * Rows that SQL gave, with the fields of these names opened, however deep they lie. Fields of other names stay as they
 * are, whatever somebody wrote into them.
 *
 * @throws SealBroken
 */
export function opened<Rows>(rows: Rows, ...names: readonly string[]): Rows {
  return inside(rows, new Set(names), false) as Rows;
}

/** In place: to build a page of rows anew took a fifth of the time it took to answer it. */
function inside(value: unknown, names: ReadonlySet<string>, named: boolean): unknown {
  if (typeof value === 'string') return named ? openedValue(value) : value;
  if (Array.isArray(value)) {
    for (const [index, item] of value.entries()) value[index] = inside(item, names, named);
  } else if (isPlain(value)) {
    for (const name in value) value[name] = inside(value[name], names, names.has(name));
  }
  return value;
}

const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;

/** For a column of `text` or `jsonb` that holds medical text or answers. */
export const sealedColumn: ValueTransformer = {
  to: (value: unknown) => (value === undefined ? undefined : sealed(value)),
  from: openedValue,
};

/** For a column of `text[]`: each item is sealed by itself. */
export const sealedItems: ValueTransformer = {
  to: (items: readonly unknown[] | undefined) => items?.map(sealed),
  from: (items: readonly unknown[]) => items.map(openedValue),
};

/** Whether what a column holds is sealed, by its transformer. */
export const isSealed = (transformer: unknown): boolean =>
  transformer === sealedColumn || transformer === sealedItems;

/**
 * A keyed hash (HMAC-SHA-256) of what is looked up or compared as a whole and is itself sealed or not kept: without the
 * studio's key nobody can try out what it may be of. The key is derived from the studio's (HKDF, RFC 5869).
 */
export function lookUpHash(value: Buffer): Buffer {
  const { studioId, key } = keyInScope(true);
  const lookUpKey = hkdfSync('sha256', key, studioId, 'look-up', 32);
  return createHmac('sha256', Buffer.from(lookUpKey)).update(value).digest();
}
