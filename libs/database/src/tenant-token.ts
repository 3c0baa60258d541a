import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/**
 * An opaque token that names its studio and its row, so that it can be looked up under row-level security:
 * `<studio>.<row>.<secret>`. Only the secret's hash is stored.
 */
export interface TenantToken {
  readonly studioId: string;
  readonly id: string;
  readonly secret: string;
}

const form = /^(?<studio>[0-9a-f]{32})\.(?<row>[0-9a-f]{32})\.(?<secret>[A-Za-z0-9_-]{43})$/;

export const newSecret = (): string => randomBytes(32).toString('base64url');

/** The secret is 256 random bits, so one round of SHA-256 is enough. */
export const secretHash = (secret: string): Buffer => createHash('sha256').update(secret).digest();

export const hashesEqual = (left: Buffer, right: Buffer): boolean =>
  left.length === right.length && timingSafeEqual(left, right);

export function tenantToken({ studioId, id, secret }: TenantToken): string {
  return `${studioId.replaceAll('-', '')}.${id.replaceAll('-', '')}.${secret}`;
}

export function readTenantToken(text: string): TenantToken | null {
  const parts = form.exec(text)?.groups as { studio: string; row: string; secret: string } | undefined;
  if (!parts) return null;
  return { studioId: withDashes(parts.studio), id: withDashes(parts.row), secret: parts.secret };
}

const withDashes = (hex: string): string =>
  hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
