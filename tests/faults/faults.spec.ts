import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Report } from './drill.js';
import { alone, drills, type Form } from './drills.js';
import { DueFollowUps, OwnServer } from './fault-services.js';

/** `npm run faults`; without it the same in small, and waits cut short. */
const full = process.env['FAULTS'] === 'full';
const form: Form & { due: number } = full
  ? { due: 200, hurried: false, kills: 20 }
  : { due: 30, hurried: true, kills: 4 };
const patienceMs = full ? 1_200_000 : 120_000;

let postgres: OwnServer;
const reports = new Map<string, Promise<Report>>();

beforeAll(async () => {
  postgres = await OwnServer.postgres();
  const due = await DueFollowUps.make(postgres, form.due);
  // Mostly waiting, so at once; the full ones one after another, each with the machine to itself.
  let before: Promise<unknown> = Promise.resolve();
  for (const [name, run] of Object.entries(drills)) {
    const report = full ? before.then(() => run(due, form, postgres)) : run(due, form, postgres);
    reports.set(name, report);
    before = report.catch(() => undefined);
  }
  const others = Promise.allSettled(reports.values());
  for (const [name, run] of Object.entries(alone)) {
    reports.set(
      name,
      others.then(() => run(due, form, postgres)),
    );
  }
  // A failure belongs to the test that waits for it.
  for (const report of reports.values()) report.catch(() => undefined);
}, patienceMs);

afterAll(async () => {
  const settled = await Promise.allSettled(reports.values());
  const told = settled.flatMap((one) => (one.status === 'fulfilled' ? [one.value] : []));
  process.stdout.write(`\n${table(told)}\n`);
  await postgres.remove();
}, patienceMs);

describe('what was promised for now goes out, though', () => {
  it.each([
    ['the worker is killed again and again', 'workerKilled'],
    ['Redis is killed and comes back empty', 'redisKilled'],
    ['the mail server refuses, stalls, and drops after the data', 'smtpAstray'],
    ['two workers and two relays race', 'twoWorkers'],
    ['the workers’ clocks are an hour off', 'clocksOff'],
    ['PostgreSQL is restarted', 'postgresRestarted'],
  ])(
    '%s',
    async (_, name) => {
      const report = await reports.get(name);
      expect(report).toMatchObject({ due: form.due, sent: form.due, lost: 0, givenUp: 0, unrecognisable: 0 });
      expect(report?.explained).toBe(report?.duplicates);
    },
    patienceMs,
  );
});

function table(rows: readonly Report[]): string {
  const lines = rows.map(
    ({ drill, due, sent, lost, duplicates, explained, inDoubt, disturbances, seconds }) =>
      `| ${[drill.replaceAll('_', ' '), disturbances, due, sent, lost, duplicates, explained, inDoubt, seconds].join(' | ')} |`,
  );
  const head = [
    'drill',
    'what was done',
    'due',
    'sent',
    'lost',
    'duplicates',
    'explained',
    'in doubt',
    'seconds',
  ];
  return [`| ${head.join(' | ')} |`, `|${' --- |'.repeat(head.length)}`, ...lines].join('\n');
}
