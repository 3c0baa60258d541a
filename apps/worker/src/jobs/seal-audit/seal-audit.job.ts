import { finishOrder, sealAuditEntries, type TenantTransaction } from '@studio/database';
import type { JobHandler, Order } from '../../order.js';

export class SealAuditJob implements JobHandler<'seal-audit'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId }: Order<'seal-audit'>): Promise<void> {
    let sealed: number;
    do {
      sealed = await this.transaction.run({ studioId }, (tx) => sealAuditEntries(tx, studioId));
    } while (sealed > 0);
    await this.transaction.run({ studioId }, (tx) => finishOrder(tx, { studioId, outboxId }));
  }
}
