import { finishOrder, secretHash, tenantToken, type TenantTransaction } from '@studio/database';
import { createHmac } from 'node:crypto';
import type { Mailer } from '../../mailer.js';
import type { JobHandler, Order } from '../../order.js';
import { intakeMail } from './intake-mail.js';
import * as queries from './send-intake-link.queries.js';

/** Mails an intake's one-time link; sent again after a crash it is the same mail with the same link. */
export class SendIntakeLinkJob implements JobHandler<'send-intake-link'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly mailer: Mailer,
    private readonly options: { publicUrl: string; mailFrom: string; linkSecret: string },
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'send-intake-link'>): Promise<void> {
    const id = payload.intakeLinkId;
    const key = { studioId, id };
    const secret = createHmac('sha256', this.options.linkSecret)
      .update(`intake/${studioId}/${id}`)
      .digest('base64url');
    const messageId = `<${outboxId}@${this.options.mailFrom.split('@').at(-1) ?? 'localhost'}>`;

    const toSend = await this.transaction.run({ studioId }, async (tx) => {
      const intake = await queries.findIntakeToSend(tx, key);
      if (!intake?.isOpen || !intake.mayBeContacted || intake.email === null) {
        // Revoked meanwhile, or consent or address are gone: `sentAt` stays empty, for the studio to see.
        await finishOrder(tx, { studioId, outboxId });
        return null;
      }
      await queries.prepareLink(tx, key, { linkHash: secretHash(secret), messageId });
      return { ...intake, email: intake.email };
    });
    if (!toSend) return;

    const link = `${this.options.publicUrl}/intake/${tenantToken({ studioId, id, secret })}`;
    const { email: to, studioName: fromName } = toSend;
    await this.mailer.send({ messageId, to, fromName, ...intakeMail({ ...toSend, link }) });
    await this.transaction.run({ studioId }, async (tx) => {
      await queries.markSent(tx, key);
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}
