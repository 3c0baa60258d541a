import { Injectable } from '@nestjs/common';
import {
  hashesEqual,
  readTenantToken,
  secretHash,
  TenantTransaction,
  type SqlRunner,
  type TenantToken,
} from '@studio/database';
import { NotFound } from '../../http/problem.js';
import { consentWithdrawnByLink } from '../clients/index.js';
import type { Subscription } from './unsubscribe-page.js';
import { findSubscription, type SubscriptionRecord } from './unsubscribe.queries.js';

@Injectable()
export class UnsubscribeService {
  constructor(private readonly transaction: TenantTransaction) {}

  async look(link: string): Promise<Subscription> {
    const token = tokenOf(link);
    return this.transaction.read(token, (sql) => subscriptionOf(sql, token));
  }

  /** The client takes back the consent to be contacted. A second time changes nothing. */
  async unsubscribe(link: string, requestId: string): Promise<Subscription> {
    const token = tokenOf(link);
    const { studioId } = token;
    return this.transaction.run(token, async (tx) => {
      const subscription = await subscriptionOf(tx, token);
      const ctx = { studioId, userId: null, roles: [], requestId };
      const { clientId } = subscription;
      await consentWithdrawnByLink(tx, ctx, { clientId, kind: 'contact' });
      return subscription;
    });
  }
}

function tokenOf(link: string): TenantToken {
  const token = readTenantToken(link);
  if (!token) throw new NotFound();
  return token;
}

async function subscriptionOf(
  sql: SqlRunner,
  { studioId, id, secret }: TenantToken,
): Promise<SubscriptionRecord> {
  const subscription = await findSubscription(sql, { studioId, id });
  if (!subscription || !hashesEqual(subscription.unsubscribeHash, secretHash(secret))) throw new NotFound();
  return subscription;
}
