import { Injectable } from '@nestjs/common';
import {
  hashesEqual,
  readTenantToken,
  recordAudit,
  secretHash,
  TenantTransaction,
  type PasswordLink,
  type TenantToken,
} from '@studio/database';
import { DataSource, type EntityManager } from 'typeorm';
import { hashPassword, requireGoodPassword } from '../../http/passwords.js';
import type { LinkedAccount } from './choose-password-pages.js';
import { orderPasswordLink } from './order-password-link.js';
import type { ChoosePasswordRequest, PasswordResetRequest } from './password-links.dto.js';
import * as queries from './password-links.queries.js';
import { ownWords, setPassword } from './passwords.queries.js';
import { PasswordLinkSpent } from './sign-ins.errors.js';
import { findActiveUserByEmail, findStudioIdByHandle, revokeSignIns } from './sign-ins.queries.js';

/** A person's mailbox is not filled by somebody who knows the address. */
const resetsAnHour = 3;

@Injectable()
export class PasswordLinksService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly transaction: TenantTransaction,
  ) {}

  async requestReset({ studio, email }: PasswordResetRequest, requestId: string): Promise<void> {
    const studioId = await findStudioIdByHandle(this.dataSource, studio);
    if (studioId === null) return;
    await this.transaction.run({ studioId }, async (tx) => {
      const user = await findActiveUserByEmail(tx, studioId, email);
      if (!user) return;
      const person = { studioId, userId: user.id };
      if ((await queries.countResetsOfTheHour(tx, person)) >= resetsAnHour) return;
      await orderPasswordLink(tx, person, 'reset');
      await recordAudit(
        tx,
        { studioId, userId: null, roles: [], requestId },
        { action: 'passwords.request-reset', recordId: user.id },
      );
    });
  }

  /** @throws PasswordLinkSpent for a link that cannot be used */
  async look(link: string): Promise<LinkedAccount> {
    const token = tokenOf(link);
    const { studioId } = token;
    return this.transaction.run({ studioId }, async (tx) => {
      const { userId } = await usable(tx, token);
      return queries.getLinkedAccount(tx, { studioId, userId });
    });
  }

  async choose(link: string, { password }: ChoosePasswordRequest, requestId: string): Promise<void> {
    const token = tokenOf(link);
    const { studioId } = token;
    const own = await this.transaction.run({ studioId }, async (tx) => {
      const { userId } = await usable(tx, token);
      return ownWords(tx, { studioId, userId });
    });
    requireGoodPassword(password, own);
    const passwordHash = await hashPassword(password);
    await this.transaction.run({ studioId }, async (tx) => {
      const { id, userId } = await usable(tx, token);
      const person = { studioId, userId };
      if (!(await queries.spend(tx, { studioId, id }))) throw new PasswordLinkSpent();
      await queries.spendOthers(tx, person);
      await setPassword(tx, person, passwordHash);
      await revokeSignIns(tx, person);
      await recordAudit(
        tx,
        { studioId, userId, roles: [], requestId },
        { action: 'passwords.choose', recordId: userId },
      );
    });
  }
}

function tokenOf(link: string): TenantToken {
  const token = readTenantToken(link);
  if (!token) throw new PasswordLinkSpent();
  return token;
}

async function usable(tx: EntityManager, token: TenantToken): Promise<PasswordLink> {
  const link = await queries.findOpenLink(tx, token);
  if (!link?.linkHash || !hashesEqual(link.linkHash, secretHash(token.secret))) throw new PasswordLinkSpent();
  return link;
}
