import { finishOrder, type TenantTransaction } from '@studio/database';
import type { Mailer } from '../../mailer.js';
import { GiveUp, type JobHandler, type Order } from '../../order.js';
import { alertMail } from './alert-mail.js';
import { findAlerted } from './alert-studio.queries.js';

/**
 * Mails everyone who may act. After a failure half-way everyone is mailed again: twice is better than not at all, and
 * the Message-ID is the same.
 */
export class AlertStudioJob implements JobHandler<'alert-studio'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly mailer: Mailer,
    private readonly options: { publicUrl: string; mailFrom: string },
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'alert-studio'>): Promise<void> {
    const alerted = await this.transaction.read({ studioId }, (sql) => findAlerted(sql, studioId));
    if (!alerted || alerted.emails.length === 0) throw new GiveUp('nobody to alert');
    const { publicUrl, mailFrom } = this.options;
    const { studioName, emails } = alerted;
    const mail = alertMail({ studioName, referralId: payload.referralId, publicUrl });
    const domain = mailFrom.split('@').at(-1) ?? 'localhost';
    const sent = await Promise.allSettled(
      emails.map((to, at) =>
        this.mailer.send({ messageId: `<${outboxId}.${at}@${domain}>`, to, fromName: studioName, ...mail }),
      ),
    );
    // One wrong address must not keep the others from hearing, nor hide that one failed.
    const failure = sent.find(({ status }) => status === 'rejected');
    if (failure?.status === 'rejected') throw failure.reason;
    await this.transaction.run({ studioId }, (tx) => finishOrder(tx, { studioId, outboxId }));
  }
}
