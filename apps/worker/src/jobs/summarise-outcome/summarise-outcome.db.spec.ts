import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { ClientSummaryRow, type TenantTransaction } from '@studio/database';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { inventedId, inventSessions } from '../../../../../bench/reviews/invented-sessions.mjs';
import { fromScratch } from '../../../../../bench/reviews/review-by-sql.mjs';
import { createTestDatabase, type TestDatabase } from '../../../../../tests/helpers/database.js';
import { connect, type Connected } from '../../../../../tests/helpers/keys.js';
import { clientSummary } from './client-summary.js';
import type { OutcomeInputs } from './outcome-inputs.js';
import { SummariseOutcomeJob } from './summarise-outcome.job.js';

const options = { seed: 11, studios: 2, sessionsPerStudio: 40, now: new Date() };
const studioId = inventedId('studio', 0, 0);

let database: TestDatabase;
let admin: pg.Client;
let connected: Connected;
let transaction: TenantTransaction;
let job: SummariseOutcomeJob;

const summarise = (fitSessionId: string): Promise<void> =>
  job.handle({ studioId, outboxId: randomUUID(), payload: { fitSessionId } });
const rowsOf = async <Row>(sql: string, values: unknown[] = []): Promise<Row[]> =>
  (await admin.query(sql, values)).rows as Row[];

beforeAll(async () => {
  database = await createTestDatabase();
  admin = new pg.Client({ connectionString: database.adminUrl });
  await admin.connect();
  await inventSessions(admin, options);
  connected = await connect(database.workerUrl, 2);
  ({ transaction } = connected);
  job = new SummariseOutcomeJob(transaction);
  for (let index = 0; index < options.sessionsPerStudio; index += 1) {
    await summarise(inventedId('session', 0, index));
  }
});
afterAll(async () => {
  await connected.close();
  await admin.end();
  await database.drop();
});

interface Row {
  fit_session_id: string;
  answer_state: string;
  [column: string]: unknown;
}

describe('summarise-outcome', () => {
  it('says of every signed session what plain SQL says of the record', async () => {
    const expected = await rowsOf<Row>(`${fromScratch} ORDER BY fit_session_id`, [studioId]);
    const columns = Object.keys(expected[0] ?? {}).join(', ');
    const found = await rowsOf<Row>(
      `SELECT ${columns} FROM outcome_summaries WHERE studio_id = $1 ORDER BY fit_session_id`,
      [studioId],
    );
    expect(found).toHaveLength(options.sessionsPerStudio);
    expect(new Set(found.map(({ answer_state }) => answer_state))).toEqual(
      new Set(['answered', 'asked', 'not_asked']),
    );
    // Means of two may differ in the last bit.
    const rounded = (rows: Row[]) =>
      rows.map((row) =>
        Object.fromEntries(
          Object.entries(row).map(([column, value]) => [
            column,
            typeof value === 'number' ? Number(value.toFixed(9)) : value,
          ]),
        ),
      );
    expect(rounded(found)).toEqual(rounded(expected));
  });

  it('touches no other studio', async () => {
    const [{ n }] = (await rowsOf<{ n: string }>(
      'SELECT count(*) AS n FROM outcome_summaries WHERE studio_id <> $1',
      [studioId],
    )) as [{ n: string }];
    expect(Number(n)).toBe(0);
  });

  it('keeps for every answered session a summary that its stored inputs give again, to the last bit', async () => {
    const summaries = await transaction.run({ studioId }, (tx) => tx.find(ClientSummaryRow));
    const [{ n }] = (await rowsOf<{ n: string }>(
      `SELECT count(*) AS n FROM outcome_summaries WHERE answer_state = 'answered'`,
    )) as [{ n: string }];
    expect(summaries.length).toBeGreaterThan(15);
    expect(summaries).toHaveLength(Number(n));
    for (const { inputs, result, version } of summaries) {
      expect(version).toBe(1);
      expect(JSON.parse(JSON.stringify(clientSummary(inputs as OutcomeInputs)))).toEqual(result);
    }
  });

  it('writes no new version when run again, and one more when an answer came', async () => {
    const [session] = await rowsOf<Row>(
      `SELECT s.fit_session_id FROM outcome_summaries s
         JOIN follow_ups f ON f.studio_id = s.studio_id AND f.fit_session_id = s.fit_session_id AND f.state = 'sent'
        WHERE s.answer_state = 'answered' LIMIT 1`,
    );
    const fitSessionId = session?.fit_session_id ?? '';
    const versions = async () =>
      (
        await transaction.run({ studioId }, (tx) =>
          tx.find(ClientSummaryRow, { where: { fitSessionId }, order: { version: 'ASC' } }),
        )
      ).map(({ version, result }) => [version, (result as { text: string }).text]);
    const [first] = await versions();
    await summarise(fitSessionId);
    await Promise.all([summarise(fitSessionId), summarise(fitSessionId)]);
    expect(await versions()).toEqual([first]);

    await admin.query(
      `UPDATE follow_ups SET state = 'answered', answered_at = now(), pain = 0, comfort = 99
        WHERE fit_session_id = $1 AND state = 'sent'`,
      [fitSessionId],
    );
    await summarise(fitSessionId);
    const [kept, next] = await versions();
    expect(kept).toEqual(first);
    expect(next).toEqual([2, expect.stringContaining('0 of 10 now')]);
  });

  it('leaves an unsigned session alone', async () => {
    const fitSessionId = inventedId('session', 0, 3);
    await admin.query(`SET session_replication_role = replica`);
    await admin.query(
      `UPDATE fit_sessions SET signed_at = NULL, signed_by = NULL, content_hash = NULL WHERE id = $1`,
      [fitSessionId],
    );
    await admin.query(`DELETE FROM outcome_summaries WHERE fit_session_id = $1`, [fitSessionId]);
    await admin.query(`RESET session_replication_role`);
    await summarise(fitSessionId);
    expect(await rowsOf('SELECT 1 FROM outcome_summaries WHERE fit_session_id = $1', [fitSessionId])).toEqual(
      [],
    );
  });
});
