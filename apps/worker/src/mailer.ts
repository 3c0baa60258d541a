import { createTransport, type Transporter } from 'nodemailer';
import { GiveUp } from './order.js';

export interface Mail {
  readonly messageId: string;
  readonly to: string;
  readonly fromName: string;
  readonly subject: string;
  readonly text: string;
}

/** Sends by SMTP. A server's "never" (5xx) gives up; anything else may be tried again. */
export class Mailer {
  private readonly transport: Transporter;

  constructor(
    smtpUrl: string,
    private readonly fromAddress: string,
  ) {
    this.transport = createTransport(smtpUrl, {
      from: fromAddress,
    });
  }

  async send(mail: Mail): Promise<void> {
    const { messageId, to, fromName, subject, text } = mail;
    try {
      await this.transport.sendMail({
        messageId,
        from: { name: fromName, address: this.fromAddress },
        to,
        subject,
        text,
        disableUrlAccess: true,
        disableFileAccess: true,
      });
    } catch (error) {
      const { responseCode } = error as { responseCode?: number };
      if (responseCode !== undefined && responseCode >= 500) throw new GiveUp(`SMTP ${responseCode}`);
      // The server's own words can hold the address, so they are not passed on.
      // eslint-disable-next-line preserve-caught-error
      throw new Error(`SMTP ${responseCode ?? (error as { code?: string }).code ?? 'failed'}`);
    }
  }

  close(): void {
    this.transport.close();
  }
}
