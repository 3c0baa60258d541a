import { Injectable } from '@nestjs/common';
import { ApiKey, hashesEqual, readTenantToken, secretHash, TenantTransaction, User } from '@studio/database';
import { IsNull, type EntityManager } from 'typeorm';
import type { Bearer } from './access-tokens.js';

/** What keys of ours begin with, so that one left in a file or a log can be found. */
export const apiKeyPrefix = 'fsk_';

const rememberedMs = 30_000;
const remembered = 1_000;

/**
 * Keys that let a program act as a person. A key that was good is not looked up again for half a minute, and so a
 * revoked one goes on that long.
 */
@Injectable()
export class ApiKeys {
  private readonly known = new Map<string, { bearer: Bearer; until: number }>();

  constructor(private readonly transaction: TenantTransaction) {}

  /** The person the key stands for, or null for a key that is not ours, revoked or run out. */
  async verify(key: string): Promise<Bearer | null> {
    const hash = secretHash(key).toString('base64');
    const known = this.known.get(hash);
    if (known && known.until > Date.now()) return known.bearer;
    this.known.delete(hash);
    const token = readTenantToken(key.slice(apiKeyPrefix.length));
    if (!token) return null;
    const bearer = await this.transaction.run(token, (tx) => findBearer(tx, token));
    if (bearer) this.remember(hash, bearer);
    return bearer;
  }

  private remember(hash: string, bearer: Bearer): void {
    const oldest = this.known.keys().next();
    if (this.known.size >= remembered && !oldest.done) this.known.delete(oldest.value);
    this.known.set(hash, { bearer, until: Date.now() + rememberedMs });
  }
}

async function findBearer(
  tx: EntityManager,
  { studioId, id, secret }: { studioId: string; id: string; secret: string },
): Promise<Bearer | null> {
  const key = await tx.findOneBy(ApiKey, { studioId, id, revokedAt: IsNull() });
  if (!key || key.expiresAt.getTime() <= Date.now() || !hashesEqual(key.secretHash, secretHash(secret)))
    return null;
  const user = await tx.findOneBy(User, { studioId, id: key.userId, disabledAt: IsNull() });
  if (!user) return null;
  await tx.update(ApiKey, { studioId, id }, { lastUsedAt: () => 'now()' });
  // A role the person lost is lost to the key.
  const roles = key.roles.filter((role) => user.roles.includes(role));
  return { studioId, userId: user.id, roles, program: { readOnly: key.readOnly } };
}
