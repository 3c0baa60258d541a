import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import pg from 'pg';
import { openMeasuredSession, screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let here: TestStudio;
let admin: pg.Client;

beforeAll(async () => {
  api = await startTestApi();
  admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
});
afterAll(async () => {
  await admin.end();
  await api.close();
});

let fitSessionId: string;
beforeEach(async () => {
  here = await openTestStudio(api);
  ({ fitSessionId } = await signed());
});

async function signed(): Promise<{ fitSessionId: string }> {
  const client = await takeOnClient(here.owner);
  await screen(here.owner, client.clientId);
  return signedSession(here.owner, client);
}

const verify = () => dataOf(here.owner.GET('/v1/record-verification'));

/** As somebody who owns the database: behind the triggers and the row-level security. */
async function behindTheTriggers(statement: string, ...values: unknown[]): Promise<void> {
  await admin.query('BEGIN');
  await admin.query(`SET LOCAL session_replication_role = 'replica'`);
  const { rowCount } = await admin.query(statement, values);
  await admin.query('COMMIT');
  expect(rowCount).toBeGreaterThan(0);
}

describe('the chain of signatures', () => {
  it('is intact over sessions and amendments, each after the one before', async () => {
    await signed();
    await here.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
      params: { path: { fitSessionId } },
      body: { text: 'the stem is 100 mm' },
    });
    const verification = await verify();
    expect(verification).toMatchObject({ intact: true, signatures: 3, signedBeforeTheChain: 0, broken: [] });
    const listed = await dataOf(
      here.owner.GET('/v1/fit-sessions/{fitSessionId}/signatures', { params: { path: { fitSessionId } } }),
    );
    expect(listed.map(({ number, kind }) => [number, kind])).toEqual([
      [1, 'session'],
      [3, 'amendment'],
    ]);
    expect(listed.at(-1)?.hash).toBe(verification.head?.hash);
  });

  it('stays one when many sign at once', async () => {
    const open = await Promise.all(
      Array.from({ length: 6 }, async () => {
        const client = await takeOnClient(here.owner);
        await screen(here.owner, client.clientId);
        return openMeasuredSession(here.owner, client);
      }),
    );
    const { response } = await here.owner.GET('/v1/record-verification');
    expect(response.status).toBe(200);
    await Promise.all(
      open.map((session) =>
        here.owner.POST('/v1/fit-sessions/{fitSessionId}/sign-off', {
          params: { path: { fitSessionId: session } },
        }),
      ),
    );
    expect(await verify()).toMatchObject({ intact: true, broken: [] });
  });

  it.each([
    [
      'a reading changed',
      'measurements',
      'altered',
      'UPDATE measurements SET mean = mean + 1 WHERE fit_session_id = $1',
    ],
    [
      'a position changed',
      'positions',
      'altered',
      `UPDATE positions SET saddle_height_mm = 700 WHERE fit_session_id = $1`,
    ],
    ['a plan taken away', 'plans', 'missing', 'DELETE FROM plans WHERE fit_session_id = $1'],
    [
      'another fitter named',
      'fit_sessions',
      'altered',
      'UPDATE fit_sessions SET fitter_id = screening_id WHERE id = $1',
    ],
    [
      'a reading slipped in',
      'measurements',
      'added',
      `INSERT INTO measurements (studio_id, fit_session_id, kind, method, repeats, unit, mean, error, taken_by)
         SELECT studio_id, fit_session_id, kind, method, repeats, unit, mean, error, taken_by FROM measurements
          WHERE fit_session_id = $1 LIMIT 1`,
    ],
  ])('notices %s in the database', async (_, part, what, statement) => {
    await behindTheTriggers(statement, fitSessionId);
    const { intact, broken } = await verify();
    expect(intact).toBe(false);
    expect(broken).toContainEqual(expect.objectContaining({ fitSessionId, part, what, number: 1 }));
    expect(broken.every((record) => record.part === part)).toBe(true);
  });

  it('notices a session and an amendment taken away, each once', async () => {
    await here.owner.POST('/v1/fit-sessions/{fitSessionId}/amendments', {
      params: { path: { fitSessionId } },
      body: { text: 'the stem is 100 mm' },
    });
    await behindTheTriggers('DELETE FROM amendments WHERE fit_session_id = $1', fitSessionId);
    await behindTheTriggers('DELETE FROM fit_sessions WHERE id = $1', fitSessionId);
    const { broken } = await verify();
    const missing = { fitSessionId, what: 'missing', fields: [] };
    expect(broken).toEqual([
      { ...missing, number: 1, part: 'fit_sessions', recordId: fitSessionId },
      { ...missing, number: 2, part: 'amendments', recordId: expect.any(String) },
    ]);
  });

  it('notices a signature made to fit, since the next one tells of it', async () => {
    await signed();
    await behindTheTriggers(
      `UPDATE record_signatures SET content = '{"parts":{},"session":{}}',
          content_hash = encode(sha256('{"parts":{},"session":{}}'), 'hex') WHERE fit_session_id = $1`,
      fitSessionId,
    );
    const { broken } = await verify();
    expect(broken).toContainEqual(
      expect.objectContaining({ number: 1, part: 'signature', what: 'altered', fields: ['hash'] }),
    );
  });

  it('notices a signature taken out', async () => {
    await signed();
    await behindTheTriggers('DELETE FROM record_signatures WHERE fit_session_id = $1', fitSessionId);
    const { broken } = await verify();
    expect(broken).toContainEqual(expect.objectContaining({ number: 2, part: 'chain', what: 'missing' }));
  });

  it('is not to be written by the API itself', async () => {
    const app = new pg.Client({ connectionString: api.database.apiUrl });
    await app.connect();
    try {
      await app.query(`SELECT set_config('app.studio_id', $1, false)`, [here.studio.studioId]);
      for (const statement of ['UPDATE record_signatures SET number = 9', 'DELETE FROM record_signatures'])
        await expect(app.query(statement)).rejects.toMatchObject({ code: '42501' });
    } finally {
      await app.end();
    }
  });

  it('is checked by a command too, which fails when something is broken', async () => {
    const script = path.resolve(import.meta.dirname, '../../scripts/verify-records.mjs');
    const run = () =>
      spawnSync(process.execPath, [script], {
        encoding: 'utf8',
        env: { PATH: process.env['PATH'], DATABASE_URL: api.database.apiUrl },
      });
    const other = here;
    here = await openTestStudio(api);
    await signed();
    expect(run().stdout).toContain(`${here.studio.handle}: 1 signatures`);
    here = other;
    await behindTheTriggers(
      'UPDATE measurements SET mean = mean + 1 WHERE fit_session_id = $1',
      fitSessionId,
    );
    const { status, stdout } = run();
    expect(status).toBe(1);
    expect(stdout).toContain(fitSessionId);
  });
});
