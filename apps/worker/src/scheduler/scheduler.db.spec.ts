import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { pino } from 'pino';
import { createTestDatabase, type TestDatabase } from '../../../../tests/helpers/database.js';
import { connect, type Connected } from '../../../../tests/helpers/keys.js';
import type { Schedule } from '../schedules.js';
import { Scheduler } from './scheduler.js';

const studios = [
  { id: randomUUID(), timeZone: 'Pacific/Auckland' },
  { id: randomUUID(), timeZone: 'America/Los_Angeles' },
];

let database: TestDatabase;
let admin: pg.Client;
let connected: Connected;

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  for (const { id, timeZone } of studios) {
    await admin.query(`INSERT INTO studios (id, name, time_zone) VALUES ($1, 'Studio', $2)`, [id, timeZone]);
    await admin.query('INSERT INTO studio_handles VALUES ($1, $2)', [`s-${id.slice(0, 8)}`, id]);
  }
  connected = await connect(database.workerUrl, 8);
});
afterAll(async () => {
  await connected.close();
  await admin.end();
  await database.drop();
});
beforeEach(() => admin.query('DELETE FROM outbox; DELETE FROM schedule_turns; DELETE FROM test_clock'));

const itIs = (time: string) =>
  admin.query(
    `INSERT INTO test_clock (ahead_by) VALUES ($1::timestamptz - now())
       ON CONFLICT (only_row) DO UPDATE SET ahead_by = excluded.ahead_by`,
    [time],
  );
const scheduler = (turns: Schedule['turns']): Scheduler =>
  new Scheduler(connected.dataSource, connected.transaction, pino({ level: 'silent' }), [
    { name: 'tidy', job: 'tidy-outbox', turns },
  ]);
/** Orders so far of each studio; they are carried out at once. */
const ordered = async (): Promise<number[]> => {
  await admin.query('UPDATE outbox SET done_at = now()');
  const { rows } = await admin.query<{ n: number }>(
    `SELECT count(o.id)::integer AS n FROM unnest($1::uuid[]) WITH ORDINALITY AS s (id, at)
       LEFT JOIN outbox o ON o.studio_id = s.id GROUP BY s.at ORDER BY s.at`,
    [studios.map(({ id }) => id)],
  );
  return rows.map(({ n }) => n);
};

describe('a schedule', () => {
  it('comes once a turn, however many workers look', async () => {
    const workers = [1, 2, 3, 4].map(() => scheduler({ everyMinutes: 15 }));
    const everybody = () => Promise.all(workers.map((one) => one.runRound()));
    await itIs('2027-03-02T09:01:00Z');
    await everybody();
    await everybody();
    expect(await ordered()).toEqual([1, 1]);
    await itIs('2027-03-02T09:14:00Z');
    await everybody();
    expect(await ordered()).toEqual([1, 1]);
    await itIs('2027-03-02T09:15:30Z');
    await everybody();
    expect(await ordered()).toEqual([2, 2]);
  });

  it('makes up for missed turns by one', async () => {
    const one = scheduler({ everyMinutes: 15 });
    await itIs('2027-03-02T09:01:00Z');
    await one.runRound();
    await ordered();
    await itIs('2027-03-05T09:01:00Z');
    await one.runRound();
    expect(await ordered()).toEqual([2, 2]);
  });

  it('skips a turn while the job of the one before is undone', async () => {
    const one = scheduler({ everyMinutes: 15 });
    for (const time of ['09:01', '09:16', '09:31']) {
      await itIs(`2027-03-02T${time}:00Z`);
      await one.runRound();
    }
    expect(await ordered()).toEqual([1, 1]);
  });

  it('comes daily by each studio’s own clock', async () => {
    const one = scheduler({ dailyFromHour: 3 });
    // 2 March 12:00 in Auckland, 1 March 15:00 in Los Angeles.
    await itIs('2027-03-01T23:00:00Z');
    await one.runRound();
    expect(await ordered()).toEqual([1, 1]);
    // 02:59 of the next day in Auckland, 05:59 of the next in Los Angeles.
    await itIs('2027-03-02T13:59:00Z');
    await one.runRound();
    expect(await ordered()).toEqual([1, 2]);
    await itIs('2027-03-02T14:01:00Z');
    await one.runRound();
    expect(await ordered()).toEqual([2, 2]);
  });
});
