import { closeTask, finishOrder, openTask, type TenantTransaction } from '@studio/database';
import type { JobHandler, Order } from '../../order.js';
import { listDue, listGone } from './open-due-tasks.queries.js';

/** Tasks that come with time. What somebody has done is not opened again, unless its time was moved. */
export class OpenDueTasksJob implements JobHandler<'open-due-tasks'> {
  constructor(private readonly transaction: TenantTransaction) {}

  async handle({ studioId, outboxId }: Order<'open-due-tasks'>): Promise<void> {
    await this.transaction.run({ studioId }, async (tx) => {
      for (const gone of await listGone(tx, studioId)) await closeTask(tx, { studioId, ...gone });
      for (const due of await listDue(tx, studioId)) await openTask(tx, { studioId, ...due });
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}
