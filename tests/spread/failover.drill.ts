import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { setTimeout as sleep } from 'node:timers/promises';
import { doubtUnrecorded, FollowUpRecord, tally } from '../faults/follow-up-record.js';
import { signOffSessions, untilDue } from '../faults/fault-services.js';
import { startScriptedSmtp, type ScriptedSmtp } from '../faults/scripted-smtp.js';
import { emptyRun } from '../helpers/spread-setup.mjs';
import { openTestStudio } from '../helpers/studio.js';
import { ask, Installation } from './installation.js';
import { Load } from './load.js';

const followUps = 60;
/** So slow that mail is on its way during every failover. */
const latencyMs = 10_000;
const between = 40;
const patienceMs = 900_000;

interface Row {
  readonly part: string;
  readonly sent: number;
  readonly answered: number;
  readonly retried: number;
  readonly mails: number;
  readonly seconds: number;
}

let run: Awaited<ReturnType<typeof emptyRun>>;
let installation: Installation;
let smtp: ScriptedSmtp;
let load: Load;
let addresses: readonly string[];
const rows: Row[] = [];

beforeAll(async () => {
  run = await emptyRun('failover');
  installation = await Installation.start(run.processes);
  smtp = await startScriptedSmtp({ latencyMs });
  const { urls, primaryUrl: adminUrl, url } = installation;
  const nothing = { storageFolder: '', close: () => Promise.resolve() };
  const drop = (): Promise<void> => Promise.resolve();
  const { owner } = await openTestStudio({ url, database: { ...urls, adminUrl, drop }, ...nothing });
  addresses = await signOffSessions(owner, followUps);
  await untilDue(adminUrl);
  load = new Load(owner);
  for (let n = 0; n < 2; n += 1) installation.startWorker(smtp.url);
  await load.answers(between);
  while (smtp.receptions.length === 0) await sleep(100);
}, patienceMs);
afterAll(async () => {
  process.stdout.write(`\n${table(rows)}\n`);
  await load.stop();
  await installation.stopWorkers();
  await smtp.close();
}, patienceMs);
afterAll(async () => {
  await run.stop();
}, patienceMs);

/** What was on its way by mail may come again; asked of whoever can answer while nobody can write. */
const doubt = async (adminUrl = installation.primaryUrl): Promise<void> => {
  doubtUnrecorded(await new FollowUpRecord(adminUrl).sent(), smtp.receptions);
};

/** Fails a part under load, and waits until as many were answered again. */
async function failover(part: string, fail: () => Promise<void>): Promise<Row> {
  const before = { ...load.total, mails: smtp.receptions.length };
  const began = performance.now();
  await fail();
  await load.answers(between);
  const row = {
    part,
    sent: load.total.sent - before.sent,
    answered: load.total.answered - before.answered,
    retried: load.total.retried - before.retried,
    mails: smtp.receptions.length - before.mails,
    seconds: Math.round((performance.now() - began) / 1000),
  };
  rows.push(row);
  return row;
}

describe('under load', () => {
  it(
    'an API is replaced as an upgrade does, and nobody notices',
    async () => {
      const row = await failover('API replaced after a drain', () => installation.replaceApi('api-1'));
      expect(row.retried).toBe(0);
    },
    patienceMs,
  );

  it(
    'an API is killed',
    async () => {
      await failover('API killed', async () => {
        await installation.killApi('api-2');
        await load.answers(between);
        await installation.startApi('api-2');
      });
    },
    patienceMs,
  );

  it(
    'a worker is killed',
    async () => {
      await failover('worker killed', async () => {
        await installation.killWorker();
        await doubt();
        installation.startWorker(smtp.url);
      });
    },
    patienceMs,
  );

  it(
    'PgBouncer is killed',
    async () => {
      await failover('PgBouncer killed', async () => {
        await installation.restartPooler();
        await doubt();
      });
    },
    patienceMs,
  );

  it(
    'the primary of Redis is killed, and Sentinel puts its replica in its place',
    async () => {
      await failover('Redis primary killed', () => installation.killRedis());
    },
    patienceMs,
  );

  it(
    'the primary of PostgreSQL is killed, and its replica put in its place',
    async () => {
      await failover('PostgreSQL primary killed', async () => {
        await installation.killPrimary();
        await doubt(installation.replicaUrl);
        await installation.promoteReplica();
      });
    },
    patienceMs,
  );
});

describe('afterwards', () => {
  it('every create that was answered is there, exactly once, and none besides', async () => {
    await load.stop();
    const found = await ask<{ id: string; email: string }>(
      installation.replicaUrl,
      `SELECT id, email FROM clients WHERE email LIKE '%@load.example'`,
    );
    const { creates, sent, answered, retried, wrong } = load.total;
    process.stdout.write(
      `\n${creates} creates in ${sent} requests, ${answered} answered, ${retried} retried; ${found.length} clients in the database\n`,
    );
    expect(wrong).toEqual([]);
    expect(load.created.size).toBe(creates);
    expect(new Map(found.map(({ email, id }) => [email, id]))).toEqual(load.created);
    expect(found).toHaveLength(creates);
  });

  it('reads went to the replica', async () => {
    const [row] = await ask<{ n: number }>(
      installation.replicaUrl,
      `SELECT sum(xact_commit)::integer AS n FROM pg_stat_database WHERE datname = current_database()`,
    );
    expect(row?.n).toBeGreaterThan(between);
  });

  it(
    'every follow-up went out, and none twice without a reason',
    async () => {
      const record = new FollowUpRecord(installation.replicaUrl);
      const giveUpAt = Date.now() + 600_000;
      while ((await record.sent()).size < followUps || (await record.open()) > 0) {
        if (Date.now() > giveUpAt) throw new Error('follow-ups are left');
        await record.minutePasses();
        await sleep(1_000);
      }
      const counts = tally(addresses, smtp.receptions);
      process.stdout.write(`\n${followUps} follow-ups due: ${JSON.stringify(counts)}\n`);
      expect(counts).toMatchObject({ lost: 0, unrecognisable: 0 });
      expect(counts.explained).toBe(counts.duplicates);
      expect(await record.givenUp()).toBe(0);
    },
    patienceMs,
  );
});

function table(all: readonly Row[]): string {
  const head = ['part', 'sent', 'answered', 'retried', 'mails', 'seconds'];
  const lines = all.map(({ part, sent, answered, retried, mails, seconds }) =>
    [part, sent, answered, retried, mails, seconds].join(' | '),
  );
  return [head.join(' | '), head.map(() => '---').join(' | '), ...lines]
    .map((line) => `| ${line} |`)
    .join('\n');
}
