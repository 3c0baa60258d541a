import type { ChildProcess } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { startWorker, stop } from '../helpers/worker.js';
import { doubtUnrecorded, FollowUpRecord, tally, type Tally } from './follow-up-record.js';
import { OwnServer, type DueFollowUps, type Urls } from './fault-services.js';
import { startScriptedSmtp, type ScriptedSmtp } from './scripted-smtp.js';

export interface Report extends Tally {
  readonly drill: string;
  readonly due: number;
  readonly sent: number;
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
  private readonly record: FollowUpRecord;

  private constructor(
    private readonly options: Options,
    private readonly due: DueFollowUps,
    private readonly urls: Urls,
    readonly redis: OwnServer,
    readonly smtp: ScriptedSmtp,
  ) {
    this.record = new FollowUpRecord(urls.adminUrl);
  }

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
    doubtUnrecorded(await this.record.sent(), this.smtp.receptions);
  }

  /** Wait for the next mail to arrive, so that there is something to disturb. */
  async untilArrived(count: number): Promise<void> {
    await until(() => Promise.resolve(this.smtp.receptions.length >= count));
  }

  /** Every follow-up is written down as sent, and nothing that was due is open. */
  async finish(disturbances: string): Promise<Report> {
    await until(async () => {
      if ((await this.record.sent()).size === this.due.addresses.length && (await this.record.open()) === 0)
        return true;
      if (this.options.hurried) await this.record.minutePasses();
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
    return {
      drill: this.options.drill,
      due: addresses.length,
      sent: (await this.record.sent()).size,
      ...tally(addresses, this.smtp.receptions),
      givenUp: await this.record.givenUp(),
      disturbances,
      seconds: Math.round((performance.now() - this.began) / 1000),
    };
  }
}

async function until(look: () => Promise<boolean>): Promise<void> {
  const giveUpAt = Date.now() + giveUpAfterMs;
  while (!(await look())) {
    if (Date.now() > giveUpAt) throw new Error(`not within ${giveUpAfterMs / 1000} s`);
    await sleep(20);
  }
}
