import { finishOrder, type TenantTransaction } from '@studio/database';
import type { JobHandler, Order } from '../../order.js';
import type { PersonErasure } from './person-erasure.js';

export class ErasePersonJob implements JobHandler<'erase-person'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly erasure: PersonErasure,
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'erase-person'>, signal: AbortSignal): Promise<void> {
    await this.erasure.carryOut({ studioId, requestId: payload.rightsRequestId }, signal);
    await this.transaction.run({ studioId }, (tx) => finishOrder(tx, { studioId, outboxId }));
  }
}
