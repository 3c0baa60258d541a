import { finishOrder, secretHash, tenantToken, type TenantTransaction } from '@studio/database';
import { createHmac } from 'node:crypto';
import type { Mailer } from '../../mailer.js';
import type { JobHandler, Order } from '../../order.js';
import { passwordMail } from './password-mail.js';
import * as queries from './send-password-link.queries.js';

/** Mails the link a person chooses a password by; sent again after a crash it is the same mail with the same link. */
export class SendPasswordLinkJob implements JobHandler<'send-password-link'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly mailer: Mailer,
    private readonly options: { publicUrl: string; mailFrom: string; linkSecret: string },
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'send-password-link'>): Promise<void> {
    const id = payload.passwordLinkId;
    const key = { studioId, id };
    const secret = createHmac('sha256', this.options.linkSecret)
      .update(`password/${studioId}/${id}`)
      .digest('base64url');
    const messageId = `<${outboxId}@${this.options.mailFrom.split('@').at(-1) ?? 'localhost'}>`;

    const toSend = await this.transaction.run({ studioId }, async (tx) => {
      const link = await queries.findLinkToSend(tx, key);
      if (link) await queries.prepareLink(tx, key, { linkHash: secretHash(secret), messageId });
      else await finishOrder(tx, { studioId, outboxId });
      return link;
    });
    if (!toSend) return;

    const link = `${this.options.publicUrl}/choose-password/${tenantToken({ studioId, id, secret })}`;
    const { email: to, studioName: fromName } = toSend;
    await this.mailer.send({ messageId, to, fromName, ...passwordMail({ ...toSend, link }) });
    await this.transaction.run({ studioId }, async (tx) => {
      await queries.markSent(tx, key);
      await finishOrder(tx, { studioId, outboxId });
    });
  }
}
