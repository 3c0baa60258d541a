import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf, signIn } from '@studio/api-client';
import { entityMetadatas, isSealed } from '@studio/database';
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import pg from 'pg';
import { columnsWith } from '../helpers/everywhere.js';
import { marked, takeOnMarkedPerson } from '../helpers/marked-person.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let here: TestStudio;
let clientId: string;

beforeAll(async () => {
  api = await startTestApi();
  here = await openTestStudio(api);
  ({ clientId } = await takeOnMarkedPerson(api, here));
});
afterAll(() => api.close());

async function asAdmin<Row extends pg.QueryResultRow>(statement: string): Promise<Row[]> {
  const admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  try {
    return (await admin.query<Row>(statement)).rows;
  } finally {
    await admin.end();
  }
}

describe('who copies the database', () => {
  it('reads nothing that was said or written of somebody’s body', async () => {
    // Names of things, the desk’s own words and what stands on a receipt: docs/operations/threat-model.md.
    expect(await columnsWith(api.database, marked.word)).toEqual([]);
  });

  it('finds every value of a sealed column sealed, whatever way it was written by', async () => {
    const written: string[] = [];
    const clear: string[] = [];
    for (const { tableName, columns } of await entityMetadatas()) {
      for (const { databaseName, isArray } of columns.filter(({ transformer }) => isSealed(transformer))) {
        const [row] = await asAdmin<{ n: number; clear: number }>(
          `SELECT count(*)::int AS n, count(*) FILTER (WHERE said !~ '^"?sealed:')::int AS clear
             FROM ${tableName}, unnest(${isArray ? databaseName : `ARRAY[${databaseName}::text]`}) AS said
            WHERE said <> '{}'`,
        );
        if (row && row.n > 0) written.push(`${tableName}.${databaseName}`);
        if (row && row.clear > 0) clear.push(`${tableName}.${databaseName}`);
      }
    }
    expect(clear).toEqual([]);
    expect(written.length).toBeGreaterThanOrEqual(20);
  });

  it('cannot alter a value unseen: it is not shown as if it were the same', async () => {
    const notes = () =>
      here.desk.GET('/v1/clients/{clientId}/notes', { params: { path: { clientId }, query: {} } });
    expect(JSON.stringify(await dataOf(notes()))).toContain(`${marked.word}: a dated note`);
    await asAdmin(`UPDATE client_notes SET text = overlay(text PLACING 'AAAA' FROM 30)`);
    const { error } = await notes();
    expect(error).toMatchObject({ status: 500, code: 'internal' });
  });
});

it('a studio whose key was destroyed has its books, and of its clients’ health nothing', async () => {
  const script = path.resolve(import.meta.dirname, '../../scripts/destroy-studio-key.mjs');
  const { handle, owner } = here.studio;
  const { status } = spawnSync(process.execPath, [script, handle, handle], {
    env: { PATH: process.env['PATH'], DATABASE_URL: api.database.apiUrl },
  });
  expect(status).toBe(0);
  const after = await startTestApi({}, { ...api.database, drop: () => Promise.resolve() });
  try {
    const again = await signIn(after.url, {
      ...{ studio: handle, email: owner.email, password: owner.password },
    });
    const of = { params: { path: { clientId } } };
    expect((await again.GET('/v1/clients/{clientId}/screenings', of)).error).toMatchObject({
      ...{ status: 410, code: 'studio.erased' },
    });
    expect((await dataOf(again.GET('/v1/account-documents', { params: { query: {} } }))).items).toHaveLength(
      1,
    );
  } finally {
    await after.close();
  }
});
