import { finishOrder, orderJob, secretHash, tenantToken, type TenantTransaction } from '@studio/database';
import { createHmac } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import type { Mailer } from '../../mailer.js';
import type { JobHandler, Order } from '../../order.js';
import { followUpMail } from './follow-up-mail.js';
import * as queries from './send-follow-up.queries.js';

const linkDays = 60;

/**
 * Mails a follow-up's one-time link. Mail cannot be exactly once: when the process dies between the server's answer
 * and the commit, the mail goes out again, with the same Message-ID and the same link.
 */
export class SendFollowUpJob implements JobHandler<'send-follow-up'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly mailer: Mailer,
    private readonly options: { publicUrl: string; mailFrom: string; linkSecret: string },
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'send-follow-up'>): Promise<void> {
    const id = payload.followUpId;
    const key = { studioId, id };
    const secret = createHmac('sha256', this.options.linkSecret)
      .update(`${studioId}/${id}`)
      .digest('base64url');
    const messageId = `<${outboxId}@${this.options.mailFrom.split('@').at(-1) ?? 'localhost'}>`;

    const toSend = await this.transaction.run({ studioId }, async (tx) => {
      const followUp = await queries.findFollowUpToSend(tx, key);
      if (followUp?.state !== 'scheduled' || !followUp.isDue) {
        await finishOrder(tx, { studioId, outboxId });
        return null;
      }
      if (!followUp.mayBeContacted || followUp.email === null) {
        // Without consent or address nothing is sent; it counts as not answered.
        await queries.markCancelled(tx, key);
        await this.orderSummary(tx, studioId, followUp.fitSessionId);
        await finishOrder(tx, { studioId, outboxId });
        return null;
      }
      await queries.prepareLink(tx, { ...key, linkHash: secretHash(secret), messageId, days: linkDays });
      return { ...followUp, email: followUp.email };
    });
    if (!toSend) return;

    const { email, studioName } = toSend;
    const link = `${this.options.publicUrl}/v1/follow-up-links/${tenantToken({ studioId, id, secret })}`;
    await this.mailer.send({
      messageId,
      to: email,
      fromName: studioName,
      ...followUpMail({ ...toSend, link }),
    });

    await this.transaction.run({ studioId }, async (tx) => {
      await queries.markSent(tx, key);
      await this.orderSummary(tx, studioId, toSend.fitSessionId);
      await finishOrder(tx, { studioId, outboxId });
    });
  }

  /** Why an answer is missing depends on whether it was asked for. */
  private orderSummary(tx: EntityManager, studioId: string, fitSessionId: string): Promise<void> {
    return orderJob(tx, { studioId, job: 'summarise-outcome', payload: { fitSessionId } });
  }
}
