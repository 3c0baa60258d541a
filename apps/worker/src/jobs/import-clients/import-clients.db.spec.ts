import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import {
  openTestStudio,
  startTestApi,
  type TestApi,
  type TestStudio,
} from '../../../../../tests/helpers/studio.js';
import { connect, type Connected } from '../../../../../tests/helpers/keys.js';
import { ImportClientsJob } from './import-clients.job.js';

let api: TestApi;
let studio: TestStudio;
let database: pg.Client;
let connected: Connected;
let job: ImportClientsJob;

beforeAll(async () => {
  api = await startTestApi();
  studio = await openTestStudio(api);
  database = new pg.Client({ connectionString: api.database.adminUrl });
  await database.connect();
  connected = await connect(api.database.workerUrl);
  job = new ImportClientsJob(connected.transaction);
});
afterAll(async () => {
  await connected.close();
  await database.end();
  await api.close();
});

/** An import on order, its rows as the API leaves them. */
async function ordered(rows: number): Promise<string> {
  const { studioId } = studio.studio;
  const found = await database.query<{ id: string }>(
    `INSERT INTO client_imports (studio_id, state, charset, separator, headers, mapping, uploaded_by, ordered_by)
     VALUES ($1, 'ordered', 'utf-8', ',', '{a,b}', '{}', $2, $2) RETURNING id`,
    [studioId, studio.owner.signedIn.id],
  );
  const id = found.rows[0]?.id ?? '';
  await database.query(
    `INSERT INTO client_import_rows (studio_id, import_id, row_number, cells, state, fields)
     SELECT $1, $2, n, '{}', 'ready',
            jsonb_build_object('givenName', md5($4::text || n), 'familyName', md5(n || $4), 'email', n || '@' || $4 || '.example')
       FROM generate_series(1, $3::int) n`,
    [studioId, id, rows, id],
  );
  return id;
}
const run = (clientImportId: string, signal = new AbortController().signal): Promise<void> =>
  job.handle(
    { studioId: studio.studio.studioId, outboxId: randomUUID(), payload: { clientImportId } },
    signal,
  );
const counted = async (
  id: string,
): Promise<{ clients: number; mails: number; rows: number; state: string }> =>
  (
    await database.query(
      `SELECT (SELECT count(*)::int FROM clients WHERE email LIKE '%@' || $1 || '.example') AS clients,
              (SELECT count(DISTINCT email)::int FROM clients WHERE email LIKE '%@' || $1 || '.example') AS mails,
              (SELECT count(*)::int FROM client_import_rows WHERE import_id::text = $1 AND state = 'imported') AS rows,
              (SELECT state FROM client_imports WHERE id::text = $1) AS state`,
      [id],
    )
  ).rows[0] as never;

describe('importing', () => {
  it('goes on where it was cut off, and takes each row on exactly once', async () => {
    const id = await ordered(450);
    // As when the process dies: its connections are gone, in the middle of a batch.
    const cut = run(id);
    await database.query(
      `DO $$ BEGIN
         FOR try IN 1..3000 LOOP
           PERFORM pg_sleep(0.01);
           PERFORM pg_stat_clear_snapshot();
           EXIT WHEN (SELECT count(*) FROM client_import_rows WHERE import_id = '${id}' AND state = 'imported') >= 100;
         END LOOP;
         FOR try IN 1..5000 LOOP
           PERFORM pg_terminate_backend(pid) FROM pg_stat_activity
             WHERE datname = current_database() AND application_name = 'test' AND xact_start IS NOT NULL;
           EXIT WHEN FOUND;
           PERFORM pg_stat_clear_snapshot();
         END LOOP;
       END $$`,
    );
    await expect(cut).rejects.toThrow();
    const half = await counted(id);
    expect(half).toMatchObject({ state: 'ordered', clients: half.rows, mails: half.rows });
    expect(half.rows).toBeGreaterThanOrEqual(100);
    expect(half.rows).toBeLessThan(450);
    await Promise.all([run(id), run(id)]);
    await run(id);
    expect(await counted(id)).toEqual({ clients: 450, mails: 450, rows: 450, state: 'done' });
  });

  it('stops between two batches when it is told to', async () => {
    const id = await ordered(5);
    const stopped = new AbortController();
    stopped.abort(new Error('stop'));
    await expect(run(id, stopped.signal)).rejects.toThrow('stop');
    expect(await counted(id)).toMatchObject({ clients: 0, state: 'ordered' });
  });
});
