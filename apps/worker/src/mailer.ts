import { judgeSmtpFailure, type SmtpFailure, type SmtpVerdict } from '@studio/messages';
import { inSpan, type SpanAbout } from '@studio/tracing';
import { createTransport, type Transporter } from 'nodemailer';
import { GiveUp } from './order.js';

export interface Mail {
  readonly messageId: string;
  readonly to: string;
  readonly fromName: string;
  readonly subject: string;
  readonly text: string;
  readonly html?: string;
  /** Where a program may unsubscribe with one click (RFC 8058). */
  readonly unsubscribeUrl?: string | undefined;
  /** An iTIP message (RFC 5546), carried as RFC 6047 says. */
  readonly calendar?: { readonly method: 'REQUEST' | 'CANCEL'; readonly content: string } | undefined;
}

/** The server would not take the mail, or could not be reached, and may be tried again. */
export class MailRefused extends Error {
  override readonly name = 'MailRefused';

  constructor(readonly verdict: SmtpVerdict) {
    super(verdict.reason);
  }
}

/** The server said never. */
export class MailRefusedForGood extends GiveUp {
  constructor(readonly verdict: SmtpVerdict) {
    super(verdict.reason);
  }
}

/** A relay of ours answers in seconds; one that does not is tried again, and may then have taken the mail twice. */
const patienceMs = { connectionTimeout: 10_000, greetingTimeout: 10_000, socketTimeout: 40_000 };

/** The one way mail leaves: by SMTP, over a few connections that are kept. */
export class Mailer {
  private readonly transport: Transporter;
  private readonly span: SpanAbout;

  constructor(
    smtpUrl: string,
    private readonly fromAddress: string,
  ) {
    this.transport = createTransport({ url: smtpUrl, pool: true, maxConnections: 5, ...patienceMs });
    const { hostname, port } = new URL(smtpUrl);
    const attributes = { 'server.address': hostname, ...(port !== '' && { 'server.port': Number(port) }) };
    this.span = { name: 'send mail', kind: 'client', attributes };
  }

  get domain(): string {
    return this.fromAddress.split('@').at(-1) ?? 'localhost';
  }

  /** @throws MailRefused or MailRefusedForGood */
  async send(mail: Mail): Promise<void> {
    await inSpan(this.span, () => this.hand(mail));
  }

  private async hand({ messageId, to, fromName, subject, text, html, ...mail }: Mail): Promise<void> {
    const { unsubscribeUrl, calendar } = mail;
    try {
      await this.transport.sendMail({
        messageId,
        // As objects: a text would be parsed, and could name more addresses than one.
        from: { name: fromName, address: this.fromAddress },
        to: { name: '', address: to },
        subject,
        text,
        ...(html !== undefined && { html }),
        ...(calendar && {
          icalEvent: { method: calendar.method, content: calendar.content, filename: 'appointment.ics' },
        }),
        headers: {
          // Nobody's holiday notice should answer (RFC 3834, 5).
          'Auto-Submitted': 'auto-generated',
          ...(unsubscribeUrl !== undefined && {
            'List-Unsubscribe': `<${unsubscribeUrl}>`,
            'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
          }),
        },
        // A report names the mail by it, where the server knows how (RFC 3461, 4.4).
        dsn: { id: messageId.slice(1, -1), return: 'headers', notify: ['failure', 'delay'], recipient: to },
        disableUrlAccess: true,
        disableFileAccess: true,
      });
    } catch (error) {
      const verdict = judgeSmtpFailure(error as SmtpFailure);
      throw verdict.again ? new MailRefused(verdict) : new MailRefusedForGood(verdict);
    }
  }

  close(): void {
    this.transport.close();
  }
}
