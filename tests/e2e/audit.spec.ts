import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { dataOf } from '@studio/api-client';
import {
  createDataSource,
  dropAuditMonths,
  letAuditMonthsGo,
  prepareAuditMonths,
  sealAuditEntries,
} from '@studio/database';
import canonicalize from 'canonicalize';
import { createHash } from 'node:crypto';
import pg from 'pg';
import type { EntityManager } from 'typeorm';
import { pooled } from '../helpers/database.js';
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

async function asWorker<T>(work: (tx: EntityManager, studioId: string) => Promise<T>): Promise<T> {
  const dataSource = createDataSource({
    ...{ url: api.database.workerUrl, poolSize: 1, applicationName: 'test', pooled },
  });
  await dataSource.initialize();
  try {
    const { studioId } = here.studio;
    return await dataSource.transaction(async (tx) => {
      await tx.query(`SELECT set_config('app.studio_id', $1, true)`, [studioId]);
      return work(tx, studioId);
    });
  } finally {
    await dataSource.destroy();
  }
}
const seal = (): Promise<number> => asWorker(sealAuditEntries);
const verify = () => dataOf(here.owner.GET('/v1/audit-verification'));

async function asAdmin(statement: string): Promise<pg.QueryResult> {
  const admin = new pg.Client({ connectionString: api.database.adminUrl });
  await admin.connect();
  try {
    const result = await admin.query(statement);
    expect(result.rowCount).toBeGreaterThan(0);
    return result;
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

describe('the audit log of years', () => {
  beforeAll(async () => {
    here = await openTestStudio(api);
    ({ clientId } = await takeOnClient(here.owner));
    await screen(here.owner, clientId);
  });

  it('lies in a partition a month; what is kept long enough goes as one, and the chain stands without it', async () => {
    const months = async (): Promise<string[]> => {
      const { rows } = await asAdmin(
        `SELECT c.relname AS name FROM pg_inherits i JOIN pg_class c ON c.oid = i.inhrelid
          WHERE i.inhparent = 'audit_entries'::regclass ORDER BY 1`,
      );
      return rows.map(({ name }: { name: string }) => name);
    };
    const ahead = await months();
    expect(ahead).toHaveLength(5);
    const { studioId } = here.studio;
    for (const at of ['2019-12-31T23:59:59Z', '2020-01-01T00:00:00Z', '2020-02-10T12:00:00Z']) {
      await asAdmin(
        `INSERT INTO audit_entries (studio_id, request_id, action, record_id, fields, created_at)
         VALUES ('${studioId}', 'long ago', 'clients.update', '${clientId}', '{}', '${at}')`,
      );
    }
    await asWorker((tx) => prepareAuditMonths(tx, 3));
    const old = ['audit_entries_2019_12', 'audit_entries_2020_01', 'audit_entries_2020_02'];
    expect(await months()).toEqual([...old, ...ahead]);

    const before = '2020-02-20';
    const drop = (): Promise<number> => asWorker((tx) => dropAuditMonths(tx, before));
    const letGo = (day: string) => asWorker((tx, id) => letAuditMonthsGo(tx, { studioId: id, before: day }));
    // Neither what no seal covers goes, nor what the studio's chain has not let go of.
    await letGo(before);
    expect(await drop()).toBe(0);
    expect([await seal(), await seal(), await seal()]).toEqual([1, 1, 1]);
    expect(await drop()).toBe(0);
    await letGo(before);
    const kept = { intact: true, letGo: ['2019-12-01', '2020-01-01'], seals: 5, entries: 3 };
    expect(await verify()).toMatchObject(kept);
    expect(await drop()).toBe(2);
    expect(await months()).toEqual([...old.slice(2), ...ahead]);
    expect(await verify()).toMatchObject(kept);
    expect((await entries({ until: '2020-03-01T00:00:00Z' })).items).toHaveLength(1);

    // Nobody can have a month of this year dropped.
    expect(await seal()).toBeGreaterThan(10);
    await letGo('2099-01-01');
    await asWorker((tx) => dropAuditMonths(tx, '2099-01-01'));
    expect(await months()).toEqual(ahead);
    expect(await verify()).toMatchObject({ intact: true, broken: [] });
    await asAdmin(`DELETE FROM audit_entries WHERE sealed_in = 6 AND action LIKE 'clients.%'`);
    expect(await verify()).toMatchObject({ intact: false, broken: [6] });
    await expect(
      asAdmin(`SET ROLE fitting_api; SELECT audit_drop_months('2020-01-01')`),
    ).rejects.toMatchObject({ code: '42501' });
    await expect(asAdmin(`SET ROLE fitting_worker; SELECT FROM ${ahead[0] ?? ''}`)).rejects.toMatchObject({
      code: '42501',
    });
  });
});
