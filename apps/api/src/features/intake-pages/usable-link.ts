import {
  hashesEqual,
  readTenantToken,
  secretHash,
  studioClock,
  type IntakeLink,
  type TenantToken,
} from '@studio/database';
import type { EntityManager } from 'typeorm';
import { NotFound } from '../../http/problem.js';
import { IntakeHandedIn, IntakeRevoked, IntakeRunOut } from './intake-pages.errors.js';
import { findLink, findLinkForUpdate } from './intake-links.queries.js';

/** @throws NotFound for what cannot be a link of ours */
export function tokenOf(link: string): TenantToken {
  const token = readTenantToken(link);
  if (!token) throw new NotFound();
  return token;
}

/**
 * The link's row, locked when it is to be written.
 *
 * @throws NotFound for a link that never was; IntakeHandedIn, IntakeRevoked or IntakeRunOut for one that was
 */
export async function usableLink(
  tx: EntityManager,
  { studioId, id, secret }: TenantToken,
  options: { lock: boolean },
): Promise<IntakeLink> {
  const link = await (options.lock ? findLinkForUpdate : findLink)(tx, { studioId, id });
  if (!link?.linkHash || !hashesEqual(link.linkHash, secretHash(secret))) throw new NotFound();
  if (link.submittedAt !== null) throw new IntakeHandedIn();
  if (link.revokedAt !== null) throw new IntakeRevoked();
  const { now } = await studioClock(tx, studioId);
  if (link.expiresAt <= now) throw new IntakeRunOut();
  return link;
}
