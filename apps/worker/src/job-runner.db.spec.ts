import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import { finishOrder, orderJob, type TenantTransaction } from '@studio/database';
import { queues, rulesOf } from '@studio/job-contracts';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { pino } from 'pino';
import { createTestDatabase, service, type TestDatabase } from '../../../tests/helpers/database.js';
import { eventually } from '../../../tests/helpers/mail.js';
import { connect, type Connected } from '../../../tests/helpers/keys.js';
import type { JobRegistry } from './job-registry.js';
import { JobRunner } from './job-runner.js';
import { GiveUp, NotYet, type JobHandler } from './order.js';
import { Metrics } from './metrics/metrics.js';
import { OutboxRelay } from './outbox-relay/outbox-relay.js';
import { Queues } from './queues.js';
import { redisConnection } from './redis-connection.js';

const job = 'summarise-outcome';
const studioId = randomUUID();
const otherId = randomUUID();
const rules = { limitMs: 300, attempts: 3, backoffMs: 1 };
const log = pino({ level: 'silent' });

let database: TestDatabase;
let admin: pg.Client;
let connected: Connected;
let transaction: TenantTransaction;
let stopAll: (() => Promise<void>) | undefined;

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  for (const id of [studioId, otherId]) {
    await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'Studio', 'Europe/Oslo')`, [id]);
  }
  connected = await connect(database.workerUrl);
  ({ transaction } = connected);
});
afterEach(async () => {
  await stopAll?.();
  stopAll = undefined;
});
afterAll(async () => {
  await connected.close();
  await admin.end();
  await database.drop();
});

/** A worker's relay and runner whose one handler is given. */
function start(handler: JobHandler<typeof job>): { stop: (withinMs: number) => Promise<void> } {
  const connection = redisConnection({
    url: service('TEST_REDIS_URL'),
    sentinels: [],
    sentinelPassword: null,
    primaryName: '',
  });
  const prefix = `{t${randomUUID()}}`;
  const queue = new Queues(connection, prefix);
  const metrics = new Metrics(connected.dataSource);
  const relay = new OutboxRelay(connected.dataSource, queue, log, metrics, {
    listenUrl: database.workerUrl,
    handAgainAfterSeconds: 60,
  });
  const onSettled = (): void => {
    relay.settled();
  };
  const registry = { [job]: handler } as unknown as JobRegistry;
  const runner = new JobRunner(registry, transaction, log, metrics, {
    connection,
    prefix,
    rules: () => rules,
    onSettled,
  });
  runner.start();
  relay.start();
  const stop = async (withinMs: number): Promise<void> => {
    stopAll = undefined;
    await relay.stop();
    await runner.stop(withinMs);
    await queue.close();
  };
  stopAll = () => stop(0);
  return { stop };
}

async function order(): Promise<string> {
  await transaction.run({ studioId }, (tx) =>
    orderJob(tx, { studioId, job, payload: { fitSessionId: randomUUID() } }),
  );
  const { rows } = await admin.query<{ id: string }>('SELECT id FROM outbox ORDER BY id DESC LIMIT 1');
  return rows[0]?.id ?? '';
}
interface State {
  attempts: number;
  done: boolean;
  gave_up: boolean;
  waits: boolean;
  last_error: string | null;
}
const stateOf = async (id: string): Promise<State> =>
  (
    await admin.query<State>(
      `SELECT attempts, done_at IS NOT NULL AS done, gave_up_at IS NOT NULL AS gave_up, relayed_at IS NULL AS waits,
              last_error FROM outbox WHERE id = $1`,
      [id],
    )
  ).rows[0] as State;
const until = (id: string, what: keyof State): Promise<State> =>
  eventually(what, 10, async () => {
    const state = await stateOf(id);
    return state[what] ? state : undefined;
  });
const finish = (of: { studioId: string; outboxId: string }): Promise<void> =>
  transaction.run(of, (tx) => finishOrder(tx, of));

describe('an order', () => {
  it('is tried again after a failure, and done', async () => {
    let tries = 0;
    start({
      handle: async (one) => {
        tries += 1;
        if (tries < 3) throw new Error('not this time');
        await finish(one);
      },
    });
    const id = await order();
    expect(await until(id, 'done')).toMatchObject({
      attempts: 2,
      last_error: 'not this time',
      gave_up: false,
    });
    expect(tries).toBe(3);
  });

  it('that takes too long is told to stop, and its last try gives it up in one transaction with its record', async () => {
    const stopped: string[] = [];
    start({
      handle: (_, signal) =>
        new Promise((_resolve, reject) => {
          signal.addEventListener('abort', () => {
            stopped.push((signal.reason as Error).name);
            reject(new Error('cut off'));
          });
        }),
      gaveUp: async (tx, { outboxId }, reason) => {
        await tx.query('UPDATE outbox SET payload = jsonb_build_object($2::text, $3::text) WHERE id = $1', [
          ...[outboxId, 'reason', reason],
        ]);
      },
    });
    const id = await order();
    expect(await until(id, 'gave_up')).toMatchObject({ attempts: 3, last_error: 'not done within 0.3 s' });
    expect(stopped).toEqual(Array.from({ length: 3 }, () => 'TimeLimitReached'));
    const { rows } = await admin.query<{ payload: object }>('SELECT payload FROM outbox WHERE id = $1', [id]);
    expect(rows[0]?.payload).toEqual({ reason: 'not done within 0.3 s' });
  });

  it('that ignores the signal is no longer waited for', async () => {
    let tries = 0;
    start({
      handle: async (one) => {
        tries += 1;
        if (tries === 1) await new Promise(() => undefined);
        await finish(one);
      },
    });
    const id = await order();
    expect(await until(id, 'done')).toMatchObject({ attempts: 1 });
  });

  it('is given up at once where trying again would not help', async () => {
    start({ handle: () => Promise.reject(new GiveUp('SMTP 550')) });
    expect(await until(await order(), 'gave_up')).toMatchObject({ attempts: 1, last_error: 'SMTP 550' });
  });

  it('that is too early comes again without a try counted', async () => {
    let early = true;
    start({
      handle: async (one) => {
        if (early) {
          early = false;
          throw new NotYet(10);
        }
        await finish(one);
      },
    });
    expect(await until(await order(), 'done')).toMatchObject({ attempts: 0, last_error: null });
  });
});

describe('a worker that stops', () => {
  it('finishes what it can in time, and takes nothing new', async () => {
    let begun = false;
    const worker = start({
      handle: async (one) => {
        begun = true;
        await new Promise((resolve) => setTimeout(resolve, 200));
        await finish(one);
      },
    });
    const id = await order();
    await eventually('begun', 10, () => Promise.resolve(begun || undefined));
    await worker.stop(5_000);
    expect(await stateOf(id)).toMatchObject({ done: true });
    const later = await order();
    expect(await stateOf(later)).toMatchObject({ done: false, waits: true });
    await admin.query('DELETE FROM outbox WHERE id = $1', [later]);
  });

  it('hands back what it cannot finish: the next worker does it, no try counted', async () => {
    let begun = false;
    const worker = start({
      handle: (_, signal) => {
        begun = true;
        return new Promise((_resolve, reject) => {
          signal.addEventListener('abort', () => {
            reject(new Error('cut off'));
          });
        });
      },
    });
    const id = await order();
    await eventually('begun', 10, () => Promise.resolve(begun || undefined));
    await worker.stop(10);
    expect(await stateOf(id)).toMatchObject({ done: false, waits: true, attempts: 0 });
    start({ handle: finish });
    expect(await until(id, 'done')).toMatchObject({ attempts: 0 });
  });
});

it('one studio’s 10,000 orders hold up another’s by its share, not by 10,000', async () => {
  const carriedOut: string[] = [];
  await admin.query(
    `INSERT INTO outbox (studio_id, job, payload, available_at)
     SELECT $1, $2, '{}', now() - interval '1 hour' FROM generate_series(1, 10000)`,
    [studioId, job],
  );
  start({
    handle: async (one) => {
      await finish(one);
      carriedOut.push(one.studioId);
    },
  });
  const { share } = rulesOf(job);
  await eventually('under way', 20, () => Promise.resolve(carriedOut.length > 3 * share || undefined));
  await transaction.run({ studioId: otherId }, (tx) =>
    orderJob(tx, { studioId: otherId, job, payload: { fitSessionId: randomUUID() } }),
  );
  const before = carriedOut.length;
  await eventually('the other’s order', 20, () => Promise.resolve(carriedOut.includes(otherId) || undefined));
  // Its share in the queue when the order was written, and once more while the relay was busy.
  expect(carriedOut.indexOf(otherId) - before).toBeLessThanOrEqual(2 * share + queues.summaries.concurrency);
  await stopAll?.();
  await admin.query('DELETE FROM outbox');
});
