import { finishOrder, forgetOnceKeys, type TenantTransaction } from '@studio/database';
import type { JobHandler, Order } from '../../order.js';

/** A create does not look for old keys: it would read all of a day's. */
export class ForgetIdempotencyKeysJob implements JobHandler<'forget-idempotency-keys'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId }: Order<'forget-idempotency-keys'>): Promise<void> {
    await this.transaction.run({ studioId }, async (tx) => {
      await forgetOnceKeys(tx, studioId);
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}
