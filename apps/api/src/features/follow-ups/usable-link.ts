import {
  hashesEqual,
  readClock,
  readTenantToken,
  secretHash,
  type FollowUp,
  type TenantToken,
} from '@studio/database';
import { mayBecome } from '@studio/follow-up-plans';
import type { EntityManager } from 'typeorm';
import { NotFound } from '../../http/problem.js';
import { FollowUpAnswered, FollowUpCalledOff, FollowUpRunOut } from './follow-ups.errors.js';
import { findFollowUpForUpdate } from './follow-ups.queries.js';

/** @throws NotFound for what cannot be a link of ours */
export function tokenOf(link: string): TenantToken {
  const token = readTenantToken(link);
  if (!token) throw new NotFound();
  return token;
}

/**
 * The follow-up a link leads to, locked; also one that was given up, while its link works.
 *
 * @throws NotFound for a link that never was; FollowUpAnswered, FollowUpCalledOff, FollowUpRunOut for one that was
 */
export async function usable(tx: EntityManager, { studioId, id, secret }: TenantToken): Promise<FollowUp> {
  const followUp = await findFollowUpForUpdate(tx, { studioId, id });
  if (!followUp?.linkHash || !hashesEqual(followUp.linkHash, secretHash(secret))) throw new NotFound();
  if (followUp.state === 'answered') throw new FollowUpAnswered();
  if (!mayBecome(followUp.state, 'answered')) throw new FollowUpCalledOff();
  if (followUp.linkExpiresAt === null || followUp.linkExpiresAt <= (await readClock(tx))) {
    throw new FollowUpRunOut();
  }
  return followUp;
}
