import { finishOrder, readClock, type TenantTransaction } from '@studio/database';
import { personExportKey, type ObjectStorage } from '@studio/storage';
import type { JobHandler, Order } from '../../order.js';
import { listDueRequests } from '../erase-person/erase-person.queries.js';
import type { PersonErasure } from '../erase-person/person-erasure.js';
import { listExpiredExports, markExpired } from './end-retention.queries.js';

export class EndRetentionJob implements JobHandler<'end-retention'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly storage: ObjectStorage,
    private readonly erasure: PersonErasure,
  ) {}

  async handle({ studioId, outboxId }: Order<'end-retention'>, signal: AbortSignal): Promise<void> {
    const { requestIds, exportIds } = await this.transaction.run({ studioId }, async (tx) => ({
      requestIds: await listDueRequests(tx, studioId),
      exportIds: await listExpiredExports(tx, { studioId, now: await readClock(tx) }),
    }));
    for (const requestId of requestIds) await this.erasure.carryOut({ studioId, requestId }, signal);
    for (const id of exportIds) {
      await this.storage.delete(personExportKey(studioId, id));
      await this.transaction.run({ studioId }, (tx) => markExpired(tx, { studioId, id }));
    }
    await this.transaction.run({ studioId }, (tx) => finishOrder(tx, { studioId, outboxId }));
  }
}
