import pg from 'pg';
import type { Reception } from './scripted-smtp.js';

export interface Tally {
  readonly lost: number;
  /** Mails that arrived beyond the first of their follow-up. */
  readonly duplicates: number;
  /** Of them, those whose follow-up arrived before without the sender being able to write that down. */
  readonly explained: number;
  /** Arrivals of which the sender could not write down that they were taken. */
  readonly inDoubt: number;
  /** Follow-ups that arrived under more than one Message-ID. */
  readonly unrecognisable: number;
}

/** What the mail server received, against what was due. */
export function tally(addresses: readonly string[], receptions: readonly Reception[]): Tally {
  const byAddress = addresses.map((address) => receptions.filter((one) => one.address === address));
  const repeated = byAddress.flatMap((all) => all.slice(0, -1));
  return {
    lost: byAddress.filter((all) => all.length === 0).length,
    duplicates: repeated.length,
    explained: repeated.filter(({ inDoubt }) => inDoubt).length,
    inDoubt: receptions.filter(({ inDoubt }) => inDoubt).length,
    unrecognisable: byAddress.filter((all) => new Set(all.map(({ messageId }) => messageId)).size > 1).length,
  };
}

/** Whatever arrived and is not written down as sent may come again. */
export function doubtUnrecorded(sent: ReadonlySet<string>, receptions: readonly Reception[]): void {
  for (const reception of receptions) {
    if (!sent.has(reception.address)) reception.inDoubt = true;
  }
}

/** What PostgreSQL knows of follow-ups. */
export class FollowUpRecord {
  constructor(private readonly adminUrl: string) {}

  /** Addresses whose follow-up is written down as sent. */
  async sent(): Promise<Set<string>> {
    const rows = await this.ask<{ email: string }>(
      `SELECT c.email FROM clients c
         JOIN follow_ups f ON f.studio_id = c.studio_id AND f.client_id = c.id
        WHERE f.state = 'sent' AND NOT EXISTS (
                SELECT FROM messages m WHERE m.studio_id = c.studio_id AND m.client_id = c.id
                   AND m.template = 'follow_up' AND m.state <> 'sent')`,
    );
    return new Set(rows.map(({ email }) => email));
  }

  /** Orders that are due and neither done nor given up. */
  open(): Promise<number> {
    return this.count(
      `SELECT count(*)::integer AS n FROM outbox
        WHERE done_at IS NULL AND gave_up_at IS NULL AND coalesce(due_at, available_at) <= app_now()`,
    );
  }

  givenUp(): Promise<number> {
    return this.count('SELECT count(*)::integer AS n FROM outbox WHERE gave_up_at IS NOT NULL');
  }

  /** For what waits by the record's clock, and for who was sending and has died. */
  async minutePasses(): Promise<void> {
    await this.ask(`UPDATE test_clock SET ahead_by = ahead_by + interval '1 minute'`);
    await this.ask(
      `UPDATE messages SET sending_since = sending_since - interval '1 minute'
        WHERE state = 'sending' AND sending_since < now() - interval '5 s'`,
    );
  }

  private async count(sql: string): Promise<number> {
    const [row] = await this.ask<{ n: number }>(sql);
    return row?.n ?? 0;
  }

  /** A connection of its own each time: the server may have been restarted. */
  private async ask<Row>(sql: string): Promise<Row[]> {
    const admin = new pg.Client({ connectionString: this.adminUrl });
    await admin.connect();
    try {
      return (await admin.query(sql)).rows as Row[];
    } finally {
      await admin.end();
    }
  }
}
