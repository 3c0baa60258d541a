import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { finishOrder, orderJob, type TenantTransaction } from '@studio/database';
import { rulesOf } from '@studio/job-contracts';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { createTestDatabase, type TestDatabase } from '../../../../tests/helpers/database.js';
import { connect, type Connected } from '../../../../tests/helpers/keys.js';
import { inTurns } from '../queues.js';
import {
  claimDue,
  comeAgain,
  handBack,
  markGivenUp,
  markRelayed,
  putOff,
  takeBack,
  type DueRow,
} from './outbox.queries.js';

const job = 'summarise-outcome';
const { share } = rulesOf(job);
const large = randomUUID();
const small = randomUUID();

let database: TestDatabase;
let admin: pg.Client;
let connected: Connected;
let transaction: TenantTransaction;

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  for (const id of [large, small]) {
    await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'Studio', 'Europe/Oslo')`, [id]);
  }
  connected = await connect(database.workerUrl, 3);
  ({ transaction } = connected);
});
afterAll(async () => {
  await connected.close();
  await admin.end();
  await database.drop();
});
beforeEach(() => admin.query('DELETE FROM outbox'));

/** Orders due a minute ago, the first first. */
async function order(studioId: string, count: number): Promise<void> {
  await admin.query(
    `INSERT INTO outbox (studio_id, job, payload, available_at)
     SELECT $1, $2, '{}', now() - interval '1 minute' + n * interval '1 ms' FROM generate_series(1, $3) n`,
    [studioId, job, count],
  );
}

/** One round of a relay, without a queue. */
const relay = (): Promise<DueRow[]> =>
  connected.dataSource.transaction(async (tx) => {
    const rows = await claimDue(tx, 500);
    await markRelayed(tx, rows);
    return rows;
  });
const of = (rows: readonly DueRow[], studioId: string): DueRow[] =>
  rows.filter((row) => row.studioId === studioId);
const finish = (rows: readonly DueRow[]): Promise<unknown> =>
  Promise.all(rows.map((row) => transaction.run(row, (tx) => finishOrder(tx, row))));
const stateOf = async ({ outboxId }: DueRow): Promise<Record<string, unknown>> =>
  (
    await admin.query<Record<string, unknown>>(
      `SELECT attempts, last_error, due_at, relayed_at IS NULL AS waits, gave_up_at IS NOT NULL AS gave_up,
              extract(epoch FROM available_at - now())::float AS wait FROM outbox WHERE id = $1`,
      [outboxId],
    )
  ).rows[0] ?? {};

describe('the relay', () => {
  it('keeps 10,000 orders of one studio from holding up another’s', async () => {
    await order(large, 10_000);
    await order(small, 3);
    const first = await relay();
    expect([of(first, large).length, of(first, small).length]).toEqual([share, 3]);
    // In the queue, too, the small studio's come among the first.
    expect(
      inTurns(first)
        .slice(0, 6)
        .filter(({ studioId }) => studioId === small),
    ).toHaveLength(3);

    expect(await relay()).toEqual([]);
    await finish(of(first, large).slice(0, 7));
    await order(small, 1);
    const second = await relay();
    expect([of(second, large).length, of(second, small).length]).toEqual([7, 1]);
  });

  it('hands over a studio’s oldest first, and one studio’s jobs apart', async () => {
    await order(large, share + 5);
    await transaction.run({ studioId: large }, (tx) =>
      orderJob(tx, { studioId: large, job: 'send-follow-up', payload: { followUpId: randomUUID() } }),
    );
    const rows = await relay();
    expect(rows.filter((row) => row.job === 'send-follow-up')).toHaveLength(1);
    const { rows: left } = await admin.query<{ n: string }>(
      `SELECT count(*) AS n FROM outbox WHERE relayed_at IS NULL
          AND available_at <= (SELECT max(available_at) FROM outbox WHERE relayed_at IS NOT NULL AND job = $1)`,
      [job],
    );
    expect(left).toEqual([{ n: '0' }]);
  });

  it('never hands one order to two relays that run at once', async () => {
    await order(large, 400);
    await order(small, 400);
    const rounds = await Promise.all([relay(), relay(), relay()]);
    const ids = rounds.flat().map(({ outboxId }) => outboxId);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThanOrEqual(2 * share);
    expect(ids.length).toBeLessThanOrEqual(3 * 2 * share);
  });

  it('leaves alone what is not due, done or given up', async () => {
    await order(large, 3);
    const [done, given] = (await relay()) as [DueRow, DueRow];
    await finish([done]);
    await transaction.run(given, (tx) => markGivenUp(tx, given, 'no'));
    await admin.query(`UPDATE outbox SET relayed_at = NULL`);
    await transaction.run({ studioId: small }, (tx) =>
      orderJob(tx, {
        studioId: small,
        job,
        payload: { fitSessionId: randomUUID() },
        availableAt: new Date(Date.now() + 60_000),
      }),
    );
    expect(await relay()).toHaveLength(1);
  });

  it('hands over again what Redis may have lost, after a while', async () => {
    await order(large, 2);
    const [one] = (await relay()) as [DueRow];
    await admin.query(`UPDATE outbox SET relayed_at = now() - interval '50 s' WHERE id = $1`, [one.outboxId]);
    await connected.dataSource.transaction((tx) => takeBack(tx, 45));
    expect((await relay()).map(({ outboxId }) => outboxId)).toEqual([one.outboxId]);
  });
});

describe('a try that failed', () => {
  it('is counted, and waits for the next without taking a place', async () => {
    await order(large, share + 1);
    const [failed] = (await relay()) as [DueRow];
    await transaction.run(failed, (tx) => putOff(tx, failed, { waitMs: 5_000, error: 'SMTP 451' }));
    const state = await stateOf(failed);
    expect(state).toMatchObject({ attempts: 1, last_error: 'SMTP 451', waits: true, gave_up: false });
    expect(state['wait']).toBeGreaterThan(3);
    expect(Number(state['due_at'])).toBeLessThan(Date.now() - 50_000);
    // Its place is taken by the one that waited.
    expect(await relay()).toHaveLength(1);

    await admin.query(`UPDATE outbox SET available_at = now() - interval '1 hour' WHERE id = $1`, [
      failed.outboxId,
    ]);
    await finish([(await relay())[0] ?? failed]);
    expect(await stateOf(failed)).toMatchObject({ attempts: 1 });
  });

  it('that was too early or cut short is not counted', async () => {
    await order(large, 2);
    const [early, cut] = (await relay()) as [DueRow, DueRow];
    await transaction.run(early, (tx) => comeAgain(tx, early, 9_000));
    await transaction.run(cut, (tx) => handBack(tx, cut));
    expect(await stateOf(early)).toMatchObject({ attempts: 0, waits: true });
    expect((await relay()).map(({ outboxId }) => outboxId)).toEqual([cut.outboxId]);
  });

  it('changes nothing of an order that was done meanwhile', async () => {
    await order(large, 1);
    const [row] = (await relay()) as [DueRow];
    await finish([row]);
    await transaction.run(row, (tx) => putOff(tx, row, { waitMs: 1, error: 'late' }));
    expect(await transaction.run(row, (tx) => markGivenUp(tx, row, 'late'))).toBe(false);
    expect(await stateOf(row)).toMatchObject({ attempts: 0, last_error: null, gave_up: false });
  });
});
