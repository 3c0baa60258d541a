import { finishOrder, type TenantTransaction } from '@studio/database';
import { fileKeys, type ObjectStorage } from '@studio/storage';
import type { JobHandler, Order } from '../../order.js';
import { fileHasRow } from './remove-file.queries.js';

/** Ordered when a row is deleted, and with every upload for the case that its row never comes to be. */
export class RemoveFileJob implements JobHandler<'remove-file'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly storage: ObjectStorage,
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'remove-file'>): Promise<void> {
    const kept = await this.transaction.run({ studioId }, (tx) => fileHasRow(tx, { studioId, ...payload }));
    if (!kept) {
      const { content, thumbnail } = fileKeys(studioId, payload.fileId);
      await this.storage.delete(content);
      await this.storage.delete(thumbnail);
    }
    await this.transaction.run({ studioId }, (tx) => finishOrder(tx, { studioId, outboxId }));
  }
}
