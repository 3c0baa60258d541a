import { setTimeout as sleep } from 'node:timers/promises';
import { Drill, type Report } from './drill.js';
import type { DueFollowUps, OwnServer } from './fault-services.js';
import type { Manner } from './scripted-smtp.js';

export interface Form {
  readonly hurried: boolean;
  readonly kills: number;
}

type RunDrill = (due: DueFollowUps, form: Form, postgres: OwnServer) => Promise<Report>;

/** Shifts the clock of a process, as if its host's were off. */
const clockOffBy = (ms: number): NodeJS.ProcessEnv => {
  const source = `const D = Date; globalThis.Date = class extends D {
    constructor(...a) { if (a.length === 0) super(D.now() + ${ms}); else super(...a); }
    static now() { return D.now() + ${ms}; } };`;
  return { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(source)}` };
};
const hour = 3_600_000;

/** Every fault once or more, then none. */
const nthOf =
  (script: Readonly<Partial<Record<number, Manner>>>) =>
  (n: number): Manner =>
    script[n] ?? 'take';

/** The worker is killed at random, again and again, as soon as it sends. */
const workerKilled: RunDrill = async (due, { hurried, kills }) => {
  const drill = await Drill.begin(due, { drill: 'worker_killed', hurried });
  let worker = drill.startWorker();
  let done = 0;
  while (done < kills && drill.smtp.receptions.length < due.addresses.length) {
    await drill.untilArrived(drill.smtp.receptions.length + 1);
    await sleep(Math.random() * 150);
    await drill.kill(worker);
    done += 1;
    worker = drill.startWorker();
  }
  return drill.finish(`${done} × kill -9`);
};

const redisKilled: RunDrill = async (due, { hurried }) => {
  const drill = await Drill.begin(due, { drill: 'redis_killed', hurried });
  drill.startWorker();
  const third = Math.floor(due.addresses.length / 3);
  for (const arrived of [third, 2 * third]) {
    await drill.untilArrived(arrived);
    await drill.redis.end('SIGKILL');
    await sleep(500);
    await drill.redis.start();
  }
  return drill.finish('2 × Redis killed, and empty when it was back');
};

const postgresRestarted: RunDrill = async (due, { hurried }, postgres) => {
  const drill = await Drill.begin(due, { drill: 'postgres_restarted', hurried });
  drill.startWorker();
  const third = Math.floor(due.addresses.length / 3);
  for (const [arrived, signal] of [
    [third, 'SIGINT'],
    // Without a shutdown: it has to recover.
    [2 * third, 'SIGQUIT'],
  ] as const) {
    await drill.untilArrived(arrived);
    await postgres.end(signal);
    await sleep(500);
    await postgres.start();
    await drill.doubt();
  }
  return drill.finish('2 × PostgreSQL restarted, once without a shutdown');
};

const smtpAstray: RunDrill = async (due, { hurried }) => {
  const connection = nthOf({ 1: 'refuse', 2: 'stall', 3: 'drop', 5: 'refuse' });
  const script: Partial<Record<number, Manner>> = {
    2: 'drop',
    4: 'refuse',
    7: 'refuse',
    11: 'drop',
    15: 'drop',
  };
  // Is noticed only after the mailer's patience of 40 seconds.
  if (!hurried) script[20] = 'stall';
  const drill = await Drill.begin(due, {
    drill: 'smtp_astray',
    hurried,
    smtp: { connection, mail: nthOf(script) },
  });
  drill.startWorker();
  const { refuse, stall, drop } = drill.smtp.mistreated;
  const report = await drill.finish('');
  const now = drill.smtp.mistreated;
  return {
    ...report,
    disturbances: `SMTP refused ${now.refuse - refuse}, stalled ${now.stall - stall}, dropped ${now.drop - drop}`,
  };
};

const twoWorkers: RunDrill = async (due, { hurried }) => {
  const drill = await Drill.begin(due, { drill: 'two_workers', hurried });
  drill.startWorker();
  drill.startWorker();
  return drill.finish('2 workers, each with a relay');
};

const clocksOff: RunDrill = async (due, { hurried }) => {
  const drill = await Drill.begin(due, { drill: 'clocks_off', hurried });
  drill.startWorker(clockOffBy(hour));
  drill.startWorker(clockOffBy(-hour));
  return drill.finish('one worker an hour ahead, one an hour behind');
};

/** Those that leave the shared PostgreSQL alone, and the one that does not. */
export const drills = { workerKilled, redisKilled, smtpAstray, twoWorkers, clocksOff } as const;
export const alone = { postgresRestarted } as const;
