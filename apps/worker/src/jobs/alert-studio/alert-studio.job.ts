import { finishOrder, orderMessage, type TenantTransaction } from '@studio/database';
import { GiveUp, type JobHandler, type Order } from '../../order.js';
import { listWhoMayAct } from './alert-studio.queries.js';

/** Orders a message to everyone who may act, each of which is tried and ends by itself. */
export class AlertStudioJob implements JobHandler<'alert-studio'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly options: { publicUrl: string },
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'alert-studio'>): Promise<void> {
    const { referralId } = payload;
    await this.transaction.run({ studioId }, async (tx) => {
      const userIds = await listWhoMayAct(tx, { studioId, outboxId });
      if (userIds === null) return;
      if (userIds.length === 0) throw new GiveUp('nobody to alert');
      const data = { link: `${this.options.publicUrl}/v1/referrals/${referralId}` };
      for (const userId of userIds) {
        await orderMessage(tx, { studioId, userId, template: 'studio_alert', subjectId: referralId, data });
      }
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}
