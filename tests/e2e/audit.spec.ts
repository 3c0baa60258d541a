import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import { createDataSource, sealAuditEntries } from '@studio/database';
import canonicalize from 'canonicalize';
import { createHash } from 'node:crypto';
import pg from 'pg';
import { eventually } from '../helpers/mail.js';
import { screen, signedSession, takeOnClient } from '../helpers/rider.js';
import { openTestStudio, startTestApi, type TestApi, type TestStudio } from '../helpers/studio.js';

let api: TestApi;
let here: TestStudio;
let clientId: string;
let fitSessionId: string;
let screeningId: string;

beforeAll(async () => {
  api = await startTestApi();
  here = await openTestStudio(api);
  const client = await takeOnClient(here.owner);
  ({ clientId } = client);
  screeningId = (await screen(here.owner, clientId)).id ?? '';
  ({ fitSessionId } = await signedSession(here.owner, client));
});
afterAll(() => api.close());

const entries = (query: object = {}) => dataOf(here.owner.GET('/v1/audit-entries', { params: { query } }));

async function seal(): Promise<number> {
  const dataSource = createDataSource({
    ...{ url: api.database.workerUrl, poolSize: 1, applicationName: 'test' },
  });
  await dataSource.initialize();
  try {
    const { studioId } = here.studio;
    return await dataSource.transaction(async (tx) => {
      await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
      return sealAuditEntries(tx, studioId);
    });
  } finally {
    await dataSource.destroy();
  }
}

async function asAdmin(statement: string): Promise<void> {
  const admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  try {
    expect((await admin.query(statement)).rowCount).toBeGreaterThan(0);
  } finally {
    await admin.end();
  }
}

describe('the audit log', () => {
  it('holds who read which health data, from where, and not what it said', async () => {
    await here.owner.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } });
    await here.owner.GET('/v1/screenings/{screeningId}', { params: { path: { screeningId } } });
    await here.owner.GET('/v1/clients/{clientId}/screenings', { params: { path: { clientId } } });
    await here.owner.GET('/v1/fit-sessions', { params: { query: { clientId } } });
    await here.desk.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } });
    const read = await eventually('the reads', 10, async () => {
      const { items } = await entries({ action: 'read.' });
      return items.length >= 4 ? items : undefined;
    });
    expect(read.map(({ action, recordId }) => [action, recordId]).reverse()).toEqual([
      ['read.getFitSession', fitSessionId],
      ['read.getScreening', screeningId],
      ['read.listScreenings', clientId],
      ['read.listFitSessions', clientId],
    ]);
    for (const { userId, fromAddress } of read) {
      expect(userId).toBe(here.owner.signedIn.id);
      expect(fromAddress).toBe('127.0.0.1');
    }
  });

  it('is read by the owner alone, by record, person, action and time, page by page', async () => {
    expect((await here.desk.GET('/v1/audit-entries')).response.status).toBe(403);
    const ofSession = await entries({ recordId: fitSessionId });
    expect(ofSession.items.map(({ action }) => action)).toContain('fit-sessions.sign');
    expect((await entries({ until: '2020-01-01T00:00:00Z' })).items).toEqual([]);
    const all = (await entries({ limit: 200 })).items.map(({ id }) => id);
    const paged: string[] = [];
    for (let after: string | undefined; ;) {
      const page = await entries({ limit: 3, ...(after !== undefined && { after }) });
      paged.push(...page.items.map(({ id }) => id));
      if (page.next === null) break;
      after = page.next;
    }
    expect(paged).toEqual(all);
  });

  it('lets a claim about a value be checked without holding it', async () => {
    const staff = await dataOf(
      here.owner.POST('/v1/staff', {
        body: {
          ...{ email: 'ada@x.example', displayName: 'Ada', roles: ['fitter' as const] },
          password: 'a password for tests only',
        },
      }),
    );
    await dataOf(
      here.owner.PATCH('/v1/staff/{staffId}', {
        params: { path: { staffId: staff.id }, header: { 'If-Match': '"1"' } },
        body: { displayName: 'Ada Holm' },
      }),
    );
    const [entry] = (await entries({ recordId: staff.id, action: 'staff.update' })).items;
    const hash = (value: object) =>
      createHash('sha256')
        .update(`${entry?.id ?? ''} ${canonicalize(value) ?? ''}`)
        .digest('hex');
    expect(entry?.beforeHash).toBe(hash(staff));
    expect(entry?.afterHash).toBe(hash({ ...staff, displayName: 'Ada Holm', version: 2 }));
    expect(JSON.stringify(entry)).not.toContain('Ada Holm');
  });

  it('is sealed in a chain; an entry altered, taken out or slipped in is told', async () => {
    expect(await seal()).toBeGreaterThan(10);
    await entries();
    await here.owner.GET('/v1/fit-sessions/{fitSessionId}', { params: { path: { fitSessionId } } });
    await eventually('a read not sealed', 10, async () =>
      (await entries({ limit: 1 })).items[0]?.sealed === false ? true : undefined,
    );
    await seal();
    const verify = () => dataOf(here.owner.GET('/v1/audit-verification'));
    expect(await verify()).toMatchObject({ intact: true, seals: 2, unsealed: 0, broken: [] });

    const one = `(SELECT id FROM audit_entries WHERE sealed_in = 1 ORDER BY id LIMIT 1)`;
    await asAdmin(`UPDATE audit_entries SET user_id = NULL WHERE id = ${one}`);
    expect(await verify()).toMatchObject({ intact: false, broken: [1] });
    await asAdmin(`DELETE FROM audit_entries WHERE id = ${one}`);
    expect(await verify()).toMatchObject({ intact: false, broken: [1] });
    await asAdmin(`UPDATE audit_seals SET previous_hash = 'x' , hash = 'y' WHERE number = 2`);
    expect(await verify()).toMatchObject({ intact: false, broken: [1, 2] });
  });

  it('is not to be altered by API or worker, but for the seal', async () => {
    for (const [url, statement] of [
      [api.database.apiUrl, 'UPDATE audit_entries SET sealed_in = 9'],
      [api.database.apiUrl, 'DELETE FROM audit_entries'],
      [api.database.workerUrl, `UPDATE audit_entries SET action = 'x'`],
      [api.database.workerUrl, 'DELETE FROM audit_entries'],
      [api.database.workerUrl, 'UPDATE audit_seals SET number = 9'],
    ] as const) {
      const client = new pg.Client({ connectionString: url });
      await client.connect();
      await expect(client.query(statement)).rejects.toMatchObject({ code: '42501' });
      await client.end();
    }
  });
});
