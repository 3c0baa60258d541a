import type { ChildProcess } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { startWorker, stop } from '../helpers/worker.js';
import { OwnServer, type DueFollowUps, type Urls } from './fault-services.js';
import { startScriptedSmtp, type ScriptedSmtp } from './scripted-smtp.js';

export interface Report {
  readonly drill: string;
  readonly due: number;
  readonly sent: number;
  readonly lost: number;
  /** Mails that arrived beyond the first of their follow-up. */
  readonly duplicates: number;
  /** Of them, those whose follow-up arrived before without the sender being able to write that down. */
  readonly explained: number;
  /** Arrivals of which the sender could not write down that they were taken. */
  readonly inDoubt: number;
  /** Follow-ups that arrived under more than one Message-ID. */
  readonly unrecognisable: number;
  readonly givenUp: number;
  readonly disturbances: string;
  readonly seconds: number;
}

export interface Options {
  readonly drill: string;
  /** Let a minute pass in a second: waits for a retry are real in the full form. */
  readonly hurried: boolean;
  readonly smtp?: Omit<Parameters<typeof startScriptedSmtp>[0], 'latencyMs'>;
}

const latencyMs = 40;
const giveUpAfterMs = 600_000;

/** One drill's own database, Redis and mail server, and the worker processes it starts. */
export class Drill {
  private readonly workers = new Set<ChildProcess>();
  private readonly began = performance.now();

  private constructor(
    private readonly options: Options,
    private readonly due: DueFollowUps,
    private readonly urls: Urls,
    readonly redis: OwnServer,
    readonly smtp: ScriptedSmtp,
  ) {}

  static async begin(due: DueFollowUps, options: Options): Promise<Drill> {
    const urls = await due.copy(`drill_${options.drill}`);
    const redis = await OwnServer.redis(options.drill);
    const smtp = await startScriptedSmtp({ latencyMs, ...options.smtp });
    return new Drill(options, due, urls, redis, smtp);
  }

  startWorker(changed: NodeJS.ProcessEnv = {}): ChildProcess {
    const database = { ...this.urls, drop: () => Promise.resolve() };
    const worker = startWorker({ url: 'http://127.0.0.1', database }, 'drill', {
      REDIS_URL: this.redis.url,
      SMTP_URL: this.smtp.url,
      MAIL_PER_MINUTE: '0',
      LOG_LEVEL: 'silent',
      ...(this.options.hurried && { HAND_AGAIN_SECONDS: '5' }),
      ...changed,
    });
    this.workers.add(worker);
    return worker;
  }

  async kill(worker: ChildProcess): Promise<void> {
    await stop(worker, 'SIGKILL');
    this.workers.delete(worker);
    await this.doubt();
  }

  /** Whatever arrived and is not written down as sent may come again. Call it while nobody can write. */
  async doubt(): Promise<void> {
    const recorded = await this.recorded();
    for (const reception of this.smtp.receptions) {
      if (!recorded.has(reception.address)) reception.inDoubt = true;
    }
  }

  /** Wait for the next mail to arrive, so that there is something to disturb. */
  async untilArrived(count: number): Promise<void> {
    await until(() => Promise.resolve(this.smtp.receptions.length >= count));
  }

  /** Every follow-up is written down as sent, and nothing that was due is open. */
  async finish(disturbances: string): Promise<Report> {
    await until(async () => {
      if ((await this.recorded()).size === this.due.addresses.length && (await this.openOrders()) === 0)
        return true;
      if (this.options.hurried) await this.minutePasses();
      await sleep(1_000);
      return false;
    });
    await Promise.all([...this.workers].map((worker) => stop(worker)));
    const report = await this.report(disturbances);
    await this.smtp.close();
    await this.redis.remove();
    return report;
  }

  private async report(disturbances: string): Promise<Report> {
    const { addresses } = this.due;
    const byAddress = addresses.map((address) =>
      this.smtp.receptions.filter((reception) => reception.address === address),
    );
    const repeated = byAddress.flatMap((all) => all.slice(0, -1));
    return {
      drill: this.options.drill,
      due: addresses.length,
      sent: (await this.recorded()).size,
      lost: byAddress.filter((all) => all.length === 0).length,
      duplicates: repeated.length,
      explained: repeated.filter(({ inDoubt }) => inDoubt).length,
      inDoubt: this.smtp.receptions.filter(({ inDoubt }) => inDoubt).length,
      unrecognisable: byAddress.filter((all) => new Set(all.map(({ messageId }) => messageId)).size > 1)
        .length,
      givenUp: await this.count('SELECT count(*)::integer AS n FROM outbox WHERE gave_up_at IS NOT NULL'),
      disturbances,
      seconds: Math.round((performance.now() - this.began) / 1000),
    };
  }

  /** Addresses whose follow-up is written down as sent. */
  private async recorded(): Promise<Set<string>> {
    const rows = await this.ask<{ email: string }>(
      `SELECT c.email FROM clients c
         JOIN follow_ups f ON f.studio_id = c.studio_id AND f.client_id = c.id
        WHERE f.state = 'sent' AND NOT EXISTS (
                SELECT FROM messages m WHERE m.studio_id = c.studio_id AND m.client_id = c.id
                   AND m.template = 'follow_up' AND m.state <> 'sent')`,
    );
    return new Set(rows.map(({ email }) => email));
  }

  private openOrders(): Promise<number> {
    return this.count(
      `SELECT count(*)::integer AS n FROM outbox
        WHERE done_at IS NULL AND gave_up_at IS NULL AND coalesce(due_at, available_at) <= app_now()`,
    );
  }

  /** For what waits by the record's clock, and for who was sending and has died. */
  private async minutePasses(): Promise<void> {
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
    const admin = new pg.Client({ connectionString: this.urls.adminUrl });
    await admin.connect();
    try {
      return (await admin.query(sql)).rows as Row[];
    } finally {
      await admin.end();
    }
  }
}

async function until(look: () => Promise<boolean>): Promise<void> {
  const giveUpAt = Date.now() + giveUpAfterMs;
  while (!(await look())) {
    if (Date.now() > giveUpAt) throw new Error(`not within ${giveUpAfterMs / 1000} s`);
    await sleep(20);
  }
}
