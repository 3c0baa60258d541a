import { queues } from '@studio/job-contracts';
import { Queue } from 'bullmq';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { SMTPServer } from 'smtp-server';
import { openStudio } from '../../seed/dist/open-studio.js';
import { bundleOf } from '../../scripts/services/bundle.mjs';
import { migratedDatabase } from '../../scripts/services/database.mjs';
import { root } from '../../scripts/services/paths.mjs';
import { freePort } from '../../scripts/services/ports.mjs';
import { answers, untilHealthy } from '../../scripts/services/processes.mjs';
import { dropDatabase } from '../../scripts/services/roles.mjs';
import { secretsOf } from '../../scripts/services/secrets.mjs';
import { postgresService, redisService } from '../../scripts/services/services.mjs';
import { step } from '../../scripts/services/step.mjs';
import { inTurn } from '../figures.mjs';

const database = 'studio_bench_mail';
const studios = 10;
const heading = 'How is your new position, six weeks on?';
const message = 'Your bike was fitted six weeks ago. Please tell us how it goes; it takes a moment. '.repeat(
  4,
);
const link = 'https://fitting.example/follow-ups/0199d0c27c4e7e578f4f3f1f7a0c9b11';

/**
 * Mails a second from the outbox through relay, queue and worker, each written down before and after, against a bare
 * BullMQ worker that sends mails as long over as many connections: to a server that answers at once, where the
 * processor is all there is to wait for, and to one that takes its time.
 *
 * @param {import('../../scripts/services/processes.mjs').Processes} processes
 * @param {{ rounds: number, mails: number, latencies: readonly number[] }} options milliseconds the server takes
 * @returns {Promise<import('../figures.mjs').Figure[]>}
 */
export async function mailQueue(processes, { rounds, mails, latencies }) {
  const secrets = secretsOf(processes.folder);
  const { passwords } = secrets;
  const adminUrl = await postgresService(processes, { throwaway: true });
  await dropDatabase(adminUrl, database);
  const urls = await migratedDatabase(processes, { adminUrl, database, passwords, testClock: false });
  for (let n = 0; n < studios; n += 1) await openStudio(urls.ownerUrl, studioNumber(n));
  const redisUrl = await redisService(processes, { throwaway: true });
  const sink = await startSink();
  const shared = { REDIS_URL: redisUrl, SMTP_URL: sink.url, PATH: process.env['PATH'] };
  processes.start('bare', process.execPath, [path.join(root, 'bench', 'mail-queue', 'bare-worker.mjs')], {
    env: { ...shared, CONCURRENCY: String(queues.mail.concurrency) },
  });
  const port = await freePort();
  const worker = processes.start('worker', process.execPath, [bundleOf('worker')], {
    env: {
      ...{ ...shared, DATABASE_URL: urls.workerUrl, WORKER_PORT: String(port), MAIL_PER_MINUTE: '0' },
      ...{ MAIL_FROM: 'studio@fitting.example', PUBLIC_URL: 'https://fitting.example' },
      ...{
        LINK_SECRET: secrets.linkSecret,
        WEBHOOK_KEY: secrets.webhookKey,
        MASTER_KEYS: secrets.masterKeys,
        LOG_LEVEL: 'warn',
      },
    },
  });
  await untilHealthy(worker, answers(`http://127.0.0.1:${port}/health/ready`));
  const { hostname: host, port: redisPort } = new URL(redisUrl);
  const bare = new Queue('bare', { connection: { host, port: Number(redisPort) }, prefix: '{bare}' });
  const admin = new pg.Client({
    connectionString: Object.assign(new URL(adminUrl), { pathname: `/${database}` }).href,
  });
  await admin.connect();
  try {
    const contenders = {
      outbox: () =>
        perSecond(
          mails,
          sink,
          () => order(admin, mails),
          () => allDone(admin),
        ),
      bare: () =>
        perSecond(
          mails,
          sink,
          () => add(bare, mails),
          async () => (await bare.count()) === 0,
        ),
    };
    const figures = [];
    for (const latencyMs of latencies) {
      sink.latencyMs = latencyMs;
      await step('warming up', () => inTurn(1, contenders));
      const values = await step(`sending to a server that takes ${latencyMs} ms`, () =>
        inTurn(rounds, contenders),
      );
      figures.push({
        figure: `outbox to a mail server that takes ${latencyMs} ms`,
        measured: { name: 'outbox, relay, worker', unit: 'mails/s', rounds: values.outbox },
        baseline: { name: 'bare BullMQ worker', unit: 'mails/s', rounds: values.bare },
        aim: 0.7,
      });
    }
    return figures;
  } finally {
    await bare.close();
    await admin.end();
    await sink.close();
  }
}

/** @param {number} n */
const studioNumber = (n) => ({
  studioId: randomUUID(),
  handle: `bench-${n}`,
  name: `Bench ${n}`,
  timeZone: 'Europe/Copenhagen',
  owner: { email: `owner@bench-${n}.example`, displayName: 'Owner', password: randomUUID() },
});

/** Takes every mail after `latencyMs`, and keeps none. */
async function startSink() {
  const port = await freePort();
  const sink = { url: `smtp://127.0.0.1:${port}`, latencyMs: 0, taken: 0, close: () => Promise.resolve() };
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS', 'AUTH'],
    onData(stream, _session, done) {
      stream.resume();
      stream.on('end', () => {
        sink.taken += 1;
        if (sink.latencyMs === 0) done();
        else setTimeout(done, sink.latencyMs);
      });
    },
  });
  server.listen(port, '127.0.0.1');
  await once(server.server, 'listening');
  sink.close = () =>
    new Promise((resolve) => {
      server.close(resolve);
    });
  return sink;
}

/**
 * @param {number} mails
 * @param {{ taken: number }} sink
 * @param {() => Promise<unknown>} begin
 * @param {() => Promise<boolean>} over
 */
async function perSecond(mails, sink, begin, over) {
  const before = sink.taken;
  const start = performance.now();
  await begin();
  while (sink.taken - before < mails || !(await over())) await sleep(5);
  const seconds = (performance.now() - start) / 1000;
  if (sink.taken - before !== mails) throw new Error(`${sink.taken - before} mails were sent, not ${mails}`);
  return mails / seconds;
}

/**
 * Messages to the studios' owners and their orders, in one transaction.
 *
 * @param {pg.Client} admin
 * @param {number} mails
 */
function order(admin, mails) {
  return admin.query(
    `WITH message AS (
       INSERT INTO messages (studio_id, user_id, template, data)
       SELECT u.studio_id, u.id, 'notice', $2 FROM users u, generate_series(1, $1::integer / $3) RETURNING studio_id, id)
     INSERT INTO outbox (studio_id, job, payload)
     SELECT studio_id, 'send-message', jsonb_build_object('messageId', id) FROM message`,
    [mails, JSON.stringify({ heading, message, link }), studios],
  );
}

/** @param {pg.Client} admin */
async function allDone(admin) {
  const { rows } = await admin.query(
    `SELECT FROM outbox WHERE job = 'send-message' AND done_at IS NULL LIMIT 1`,
  );
  return rows.length === 0;
}

/**
 * @param {Queue} queue
 * @param {number} mails
 */
function add(queue, mails) {
  const text = `${message}\n\n${link}`;
  const data = {
    ...{ from: { name: 'Bench', address: 'studio@fitting.example' }, subject: heading, text },
    html: `<p>${message}</p><p><a href="${link}">${link}</a></p>`,
  };
  return queue.addBulk(
    Array.from({ length: mails }, (_, n) => ({
      name: 'send',
      data: {
        ...data,
        to: `owner@bench-${n % studios}.example`,
        messageId: `<${randomUUID()}@fitting.example>`,
      },
      opts: { removeOnComplete: true, removeOnFail: true },
    })),
  );
}
