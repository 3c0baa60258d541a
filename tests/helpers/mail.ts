import { service } from './database.js';

export interface CaughtMail {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
  readonly html: string;
  readonly headers: Record<string, unknown>;
  /** What a calendar program would take up of it. */
  readonly calendar: string | null;
}

/** What the mail catcher caught for an address so far. */
export async function mailsTo(address: string): Promise<CaughtMail[]> {
  const all = (await (await fetch(`${service('TEST_MAIL_URL')}/messages`)).json()) as CaughtMail[];
  return all.filter(({ to }) => to.includes(address));
}

/** With two of every part on the machine everything takes its time. */
const patience = process.env['SPREAD'] === undefined ? 1 : 4;

/** Wait until something holds; fails after `seconds`. */
export async function eventually<T>(
  what: string,
  seconds: number,
  look: () => Promise<T | undefined>,
): Promise<T> {
  const giveUpAt = Date.now() + seconds * patience * 1000;
  for (;;) {
    const seen = await look();
    if (seen !== undefined) return seen;
    if (Date.now() > giveUpAt) throw new Error(`${what}: not within ${seconds} s`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
