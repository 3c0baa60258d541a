import { finishOrder, type TenantTransaction } from '@studio/database';
import type { JobHandler, Order } from '../../order.js';
import { forgetOrders } from './tidy-outbox.queries.js';

/** House rule: long enough to look into what a client says they were never sent. */
const keptDays = 90;

export class TidyOutboxJob implements JobHandler<'tidy-outbox'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId }: Order<'tidy-outbox'>): Promise<void> {
    await this.transaction.run({ studioId }, async (tx) => {
      await forgetOrders(tx, { studioId, olderThanDays: keptDays });
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}
