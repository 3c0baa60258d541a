import {
  finishOrder,
  openTask,
  orderFinished,
  orderJob,
  type TenantTransaction,
  type Write,
} from '@studio/database';
import { afterQuietHours, messageTemplates, type SmtpVerdict } from '@studio/messages';
import type { EntityManager } from 'typeorm';
import { MailRefused, MailRefusedForGood, type Mail, type Mailer } from '../../mailer.js';
import type { JobHandler, Order } from '../../order.js';
import { compose, type Composed } from './compose.js';
import * as queries from './send-message.queries.js';
import type { MessageToSend } from './send-message.queries.js';
import type { Subjects } from './subjects/index.js';
import type { MessageKey, Prepared } from './subjects/subject.js';
import { untilWritten } from './until-written.js';
import { waitBeforeNextTry } from './try-again.js';

/** Longer than the mailer's patience: who has not written down an end by then has died. */
const sendingLastsSeconds = 60;

/** Less is not worth a way through the outbox. */
const leastWaitMs = 500;

type OrderKey = MessageKey & { readonly outboxId: string };

/** What is handed to the mail server, once the message says that it is being sent. */
interface Sending {
  readonly message: MessageToSend;
  readonly mail: Mail;
}

/**
 * Sends a message, or ends it where it is not wanted or not allowed at this moment. Mail cannot be exactly once: see
 * docs/adr/0012-sending-mail.md.
 */
export class SendMessageJob implements JobHandler<'send-message'> {
  constructor(
    private readonly transaction: TenantTransaction,
    private readonly mailer: Mailer,
    private readonly subjects: Subjects,
    private readonly options: { publicUrl: string; linkSecret: string; mailPerMinute: number },
  ) {}

  async handle({ studioId, outboxId, payload }: Order<'send-message'>): Promise<void> {
    const key = { studioId, id: payload.messageId, outboxId };
    const sending = await this.transaction.run({ studioId }, (tx) => this.begin(tx, key));
    if (!sending) return;
    try {
      await this.mailer.send(sending.mail);
    } catch (error) {
      if (!(error instanceof MailRefused || error instanceof MailRefusedForGood)) throw error;
      await untilWritten(() =>
        this.transaction.run({ studioId }, async (tx) => {
          await this.refused(tx, key, sending, error.verdict);
          await finishOrder(tx, { studioId, outboxId });
        }),
      );
      return;
    }
    await untilWritten(() => this.transaction.write({ studioId }, this.sent(key, sending.message)));
  }

  private sent(key: OrderKey, { template, clientId, subjectId }: MessageToSend): [...Write[], Write] {
    const ofSubject =
      subjectId === null ? null : this.subjects[template]?.sent?.({ ...key, template, clientId, subjectId });
    return [queries.settled(key, { state: 'sent' }), ...(ofSubject ? [ofSubject] : []), orderFinished(key)];
  }

  /** @returns null when there is nothing to hand over now: the order is finished then */
  private async begin(tx: EntityManager, key: OrderKey): Promise<Sending | null> {
    const message = await queries.findMessageToSend(tx, key);
    const step = message && (await this.decide(tx, key, message));
    if (step !== null && 'mail' in step) return step;
    if (message && step) await this.put(tx, key, message, step);
    await finishOrder(tx, key);
    return null;
  }

  /** What is to be done with the message at this moment; null when it has come to its end already. */
  private async decide(
    tx: EntityManager,
    key: OrderKey,
    message: MessageToSend,
  ): Promise<Sending | Step | null> {
    const template = messageTemplates[message.template];
    const { now, state } = message;
    if (state !== 'queued' && state !== 'sending') return null;
    const beingSentFor = state === 'sending' ? message.sendingForSeconds : null;
    if (beingSentFor !== null && beingSentFor < sendingLastsSeconds) {
      return { wait: new Date(now.getTime() + (sendingLastsSeconds - beingSentFor) * 1000), held: true };
    }
    if (message.notBefore > now) return { wait: message.notBefore };
    if (message.expiresAt !== null && message.expiresAt <= now) return { cancel: 'too late to be of use' };
    if (!message.mayBeContacted) return { cancel: 'may not be contacted' };
    if (template.unasked) {
      const { quietFrom: from, quietUntil: until, timeZone } = message;
      const quiet = from !== null && until !== null ? { from, until } : null;
      const allowedAt = afterQuietHours(now, quiet, timeZone);
      if (allowedAt > now) return { wait: allowedAt };
    }
    const messageId = message.messageId ?? `<${hex(key.id)}.${hex(key.studioId)}@${this.mailer.domain}>`;
    const prepared = await this.prepare(tx, key, message, messageId);
    if (!prepared) return { cancel: 'not wanted any more' };
    const { email } = message;
    if (email === null || message.emailDead) {
      if (!template.byPhone) return { cancel: 'no mail address that works' };
      return { readOut: await this.compose(tx, key, message, messageId, prepared) };
    }
    const waitMs = message.hadItsTurn ? 0 : await this.takeTurn(tx, email);
    if (waitMs > leastWaitMs) {
      await queries.waitForTurn(tx, key, waitMs);
      return { wait: new Date(now.getTime() + waitMs) };
    }
    const { mail, record } = await this.compose(tx, key, message, messageId, prepared);
    await queries.markSending(tx, key, { messageId, address: email, ...record });
    return { message: { ...message, attempts: message.attempts + 1 }, mail };
  }

  private async prepare(
    tx: EntityManager,
    { studioId, id }: MessageKey,
    { template, clientId, subjectId }: MessageToSend,
    messageId: string,
  ): Promise<Prepared | null> {
    const subject = this.subjects[template];
    if (!subject || subjectId === null) return { values: {} };
    return subject.prepare(tx, { studioId, id, template, clientId, subjectId, messageId });
  }

  private async compose(
    tx: EntityManager,
    key: MessageKey,
    message: MessageToSend,
    messageId: string,
    prepared: Prepared,
  ): Promise<Composed> {
    const own = await queries.listOwnTexts(tx, { studioId: key.studioId, template: message.template });
    return compose(key, message, { messageId, prepared, own, ...this.options });
  }

  private async takeTurn(tx: EntityManager, email: string): Promise<number> {
    const { mailPerMinute } = this.options;
    const domain = email.slice(email.lastIndexOf('@') + 1).toLowerCase();
    return mailPerMinute === 0 ? 0 : queries.takeTurn(tx, domain, mailPerMinute);
  }

  private async put(tx: EntityManager, key: OrderKey, message: MessageToSend, step: Step): Promise<void> {
    if ('wait' in step) {
      await this.again(tx, key, step.wait);
      if (!step.held) await queries.queueAgain(tx, key, { notBefore: step.wait });
    } else if ('cancel' in step) {
      await queries.settle(tx, key, { state: 'cancelled', lastError: step.cancel });
    } else {
      await queries.keepWords(tx, key, step.readOut.record);
      await queries.settle(tx, key, { state: 'sent', channel: 'phone' });
      await this.openTask(tx, key, message, 'message_to_read_out');
    }
  }

  private async refused(
    tx: EntityManager,
    key: OrderKey,
    { message, mail }: Sending,
    verdict: SmtpVerdict,
  ): Promise<void> {
    const lastError = verdict.reason;
    const waitMs = verdict.again ? waitBeforeNextTry(message.attempts) : null;
    if (waitMs !== null) {
      const notBefore = new Date(message.now.getTime() + waitMs);
      await queries.queueAgain(tx, key, { notBefore, lastError });
      await this.again(tx, key, notBefore);
      return;
    }
    await queries.settle(tx, key, { state: verdict.again ? 'gave_up' : 'failed', lastError });
    const { clientId } = message;
    if (clientId === null) return;
    if (verdict.addressDead) {
      await queries.flagAddress(tx, { studioId: key.studioId, clientId, address: mail.to });
    }
    await this.openTask(tx, key, message, 'mail_bounced');
  }

  private async again(tx: EntityManager, { studioId, id }: MessageKey, availableAt: Date): Promise<void> {
    await orderJob(tx, { studioId, job: 'send-message', payload: { messageId: id }, availableAt });
  }

  private async openTask(
    tx: EntityManager,
    { studioId, id }: MessageKey,
    { clientId }: MessageToSend,
    kind: 'message_to_read_out' | 'mail_bounced',
  ): Promise<void> {
    await openTask(tx, {
      ...{ studioId, kind, role: 'front_desk', subjectId: id },
      ...(clientId !== null && { clientId }),
    });
  }
}

type Step =
  /** `held`: somebody else is sending it, and it stays theirs. */
  | { readonly wait: Date; readonly held?: true }
  | { readonly cancel: string }
  | { readonly readOut: Composed };

const hex = (id: string): string => id.replaceAll('-', '');
